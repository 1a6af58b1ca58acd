// Where a leg comes in somebody's order. The desk does the move; here is only looked up what it would be asked for.

import type { Leg, Strip } from "./view.js";

/** In whose list a leg goes, and before which leg of it; null for its end. */
export interface Place { person: string; before: string | null }

const others = (legs: readonly Leg[], leg: Leg, person: string): Leg[] =>
  legs.filter(one => one.person === person && one.id !== leg.id).sort((one, other) => one.from - other.from);

/** Let go so that it would begin at a moment: before the first leg whose middle lies later than its own. */
export function placeAt(legs: readonly Leg[], leg: Leg, person: string, from: number): Place {
  const middle = from + (leg.to - leg.from) / 2;
  return { person, before: others(legs, leg, person).find(one => (one.from + one.to) / 2 > middle)?.id ?? null };
}

/** Where it is now. */
export function placeOf(legs: readonly Leg[], leg: Leg): Place {
  return { person: leg.person, before: others(legs, leg, leg.person).find(one => one.from > leg.from || one.from === leg.from && one.id > leg.id)?.id ?? null };
}

export const isSame = (one: Place, other: Place): boolean => one.person === other.person && one.before === other.before;

/** One leg earlier or later in the same list; null at its end. */
export function placeBeside(legs: readonly Leg[], leg: Leg, direction: -1 | 1): Place | null {
  const list = others(legs, leg, leg.person), now = placeOf(legs, leg).before, at = now === null ? list.length : list.findIndex(one => one.id === now), to = at + direction;
  return to < 0 || to > list.length ? null : { person: leg.person, before: list[to]?.id ?? null };
}

/** The same moment in the list of the person whose strip lies above or below; null where there is none. */
export function placeAcross(legs: readonly Leg[], strips: readonly Strip[], leg: Leg, direction: -1 | 1): Place | null {
  const strip = strips[strips.findIndex(one => one.person === leg.person) + direction];
  return strip ? placeAt(legs, leg, strip.person, leg.from) : null;
}

/** The leg that arrows come to from another: the next on its strip, or the nearest in time on the next strip. */
export function legBeside(legs: readonly Leg[], strips: readonly Strip[], leg: Leg, way: "left" | "right" | "up" | "down"): Leg | null {
  if (way === "left" || way === "right") {
    const list = legs.filter(one => one.person === leg.person).sort((one, other) => one.from - other.from);
    return list[list.indexOf(leg) + (way === "left" ? -1 : 1)] ?? null;
  }
  const strip = strips[strips.findIndex(one => one.person === leg.person) + (way === "up" ? -1 : 1)];
  const middle = (one: Leg) => (one.from + one.to) / 2;
  return legs.filter(one => one.person === strip?.person).reduce<Leg | null>((best, one) => best && Math.abs(middle(best) - middle(leg)) <= Math.abs(middle(one) - middle(leg)) ? best : one, null);
}

/** A place in words. */
export function placeWords(legs: readonly Leg[], leg: Leg, place: Place): string {
  const before = legs.find(one => one.id === place.before && one.person === place.person), list = others(legs, leg, place.person);
  const last = before ? list[list.indexOf(before) - 1] : list.at(-1);
  const where = before ? `before ${before.title}` : last ? `after ${last.title}` : "the only leg";
  return `${place.person}, ${where}`;
}
