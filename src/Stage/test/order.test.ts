import assert from "node:assert/strict";
import { test } from "node:test";
import { isSame, legBeside, placeAcross, placeAt, placeBeside, placeOf, placeWords } from "../src/desk/order.js";
import type { Leg, Strip } from "../src/desk/view.js";

const leg = (id: string, person: string, from: number, to: number): Leg => ({ id, title: id.toUpperCase(), job: "job", jobTitle: "Job", must: false, person, place: "here", from, to, pinned: null, held: false });
const a = leg("a", "EV1", 100, 200), b = leg("b", "EV1", 300, 500), c = leg("c", "EV1", 600, 700), d = leg("d", "EV2", 250, 350), e = leg("e", "EV2", 620, 640);
const legs = [a, d, b, c, e];
const strips: Strip[] = [{ person: "EV1", name: "", top: 0, bottom: 1 }, { person: "EV2", name: "", top: 2, bottom: 3 }];

test("a leg let go goes before the first whose middle lies later than its own", () => {
  assert.deepEqual(placeAt(legs, a, "EV1", 340), { person: "EV1", before: "b" });
  // Its middle is that of b to the second: not later, so it goes behind.
  assert.deepEqual(placeAt(legs, a, "EV1", 350), { person: "EV1", before: "c" });
  assert.deepEqual(placeAt(legs, a, "EV1", 2000), { person: "EV1", before: null });
  assert.deepEqual(placeAt(legs, c, "EV1", -500), { person: "EV1", before: "a" });
});

test("a leg let go on another strip goes into the order there", () => {
  assert.deepEqual(placeAt(legs, a, "EV2", 100), { person: "EV2", before: "d" });
  assert.deepEqual(placeAt(legs, a, "EV2", 400), { person: "EV2", before: "e" });
});

test("a leg let go where it was stays where it is", () => {
  for (const one of legs) assert.ok(isSame(placeAt(legs, one, one.person, one.from), placeOf(legs, one)), one.id);
  assert.ok(!isSame(placeOf(legs, a), placeAt(legs, a, "EV2", a.from)));
});

test("one earlier and one later undo each other, and end at the ends", () => {
  assert.deepEqual(placeBeside(legs, b, -1), { person: "EV1", before: "a" });
  assert.deepEqual(placeBeside(legs, b, 1), { person: "EV1", before: null });
  assert.equal(placeBeside(legs, a, -1), null);
  assert.equal(placeBeside(legs, c, 1), null);
});

test("legs of one moment keep the order in which they are told", () => {
  const first = leg("x", "EV1", 100, 200), list = [a, first];
  assert.deepEqual(placeOf(list, a), { person: "EV1", before: "x" });
  assert.deepEqual(placeOf(list, first), { person: "EV1", before: null });
});

test("there is nobody above the first strip nor below the last", () => {
  assert.equal(placeAcross(legs, strips, a, -1), null);
  assert.deepEqual(placeAcross(legs, strips, a, 1), { person: "EV2", before: "d" });
  assert.equal(placeAcross(legs, strips, d, 1), null);
});

test("arrows go along a strip, and to the nearest in time on the next", () => {
  assert.equal(legBeside(legs, strips, a, "right"), b);
  assert.equal(legBeside(legs, strips, a, "left"), null);
  assert.equal(legBeside(legs, strips, c, "down"), e);
  assert.equal(legBeside(legs, strips, d, "up"), b);
  assert.equal(legBeside(legs, strips, a, "up"), null);
});

test("a place is told by its neighbours", () => {
  assert.equal(placeWords(legs, a, { person: "EV2", before: "e" }), "EV2, before E");
  assert.equal(placeWords(legs, a, { person: "EV2", before: null }), "EV2, after E");
  assert.equal(placeWords([a], a, { person: "EV1", before: null }), "EV1, the only leg");
});
