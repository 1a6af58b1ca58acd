import assert from "node:assert/strict";
import { test } from "node:test";
import { ceilingAt, minutesDown, minutesUp, returnAt } from "../src/desk/margins.js";
import { TimeWindow } from "../src/desk/window.js";

const frame = { left: 100, right: 1100, from: 0, to: 20000, top: 0 };

test("the whole walk lies on the axis as drawn", () => {
  const window = new TimeWindow(frame);
  for (const x of [100, 400, 1100]) assert.ok(Math.abs(window.moved(x) - x) < 1e-9);
  assert.ok(window.isWhole);
});

test("zooming keeps the moment under the pointer where it is", () => {
  const window = new TimeWindow(frame), at = 7000, x = window.x(at);
  window.zoom(at, 3);
  assert.ok(Math.abs(window.x(at) - x) < 1e-6);
  assert.ok(Math.abs(window.moment(x) - at) < 1e-6);
  assert.ok(Math.abs(window.to - window.from - 20000 / 3) < 1e-6);
});

test("nothing outside the walk is ever shown, and no less than ten minutes", () => {
  const window = new TimeWindow(frame);
  window.zoom(0, 5);
  assert.equal(window.from, 0);
  window.pan(-9999);
  assert.equal(window.from, 0);
  window.pan(1e6);
  assert.equal(window.to, 20000);
  window.zoom(10000, 1e9);
  assert.ok(window.to - window.from >= 600 - 1e-6);
  window.zoom(10000, 1e-9);
  assert.ok(window.isWhole);
});

test("another chart leaves what is shown, and the whole stays the whole", () => {
  const window = new TimeWindow(frame);
  window.use({ ...frame, to: 30000 });
  assert.equal(window.to, 30000);
  window.zoom(15000, 4);
  const { from, to } = window;
  window.use({ ...frame, to: 28000 });
  assert.deepEqual([window.from, window.to], [from, to]);
});

test("a return time that jumps is told as the longer one, and no way as none", () => {
  const points = [[0, 100], [10, 200], [10, 600], [20, 500], [30, -1], [40, 300]];
  assert.equal(returnAt(points, 5), 150);
  assert.equal(returnAt(points, 10), 600);
  assert.equal(returnAt(points, 15), 550);
  assert.equal(returnAt(points, 25), -1);
  assert.equal(returnAt(points, 30), -1);
  assert.equal(returnAt(points, 35), -1);
  assert.equal(returnAt(points, 41), null);
});

test("minutes are never told better than they are", () => {
  assert.equal(minutesUp(61), "2 min");
  assert.equal(minutesUp(120), "2 min");
  assert.equal(minutesDown(119), "1 min");
});

test("where two pieces of the ceiling meet the lower one binds", () => {
  const pieces = [{ from: 0, to: 10, fromSeconds: 50, toSeconds: 50, binds: "limit" }, { from: 10, to: 20, fromSeconds: 40, toSeconds: 30, binds: "suit" }];
  assert.deepEqual(ceilingAt(pieces, 10), { seconds: 40, binds: "suit" });
  assert.deepEqual(ceilingAt(pieces, 15), { seconds: 35, binds: "suit" });
  assert.equal(ceilingAt(pieces, 21), null);
});
