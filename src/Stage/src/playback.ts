// What Desk hands over; docs/playback.md tells the form. Nothing here knows a rule or computes a state: it is looked up.

export type Vec = [number, number, number];
export interface State { at: number; is: string }
export interface Deed { from: number; to: number; text: string; leg: string | null }
export interface Line { at: number; grips: number[]; held: boolean }
export interface Person {
  id: string; name: string; path: number[][]; lines: Line[]; where: State[]; carries: State[]; paid: number[][]; home: number[][]; does: Deed[];
}
export interface Arm { id: string; base: Vec; reach: number; path: number[][]; does: Deed[] }
export interface Spot { time: number; at: Vec | null; person: number | null; arm: number | null }
export interface Thing { name: string; kind: string; size: number; spots: Spot[] }
export interface Body { name: string; shape: "round" | "square" | "thin"; from: Vec; to: Vec; width: number }
export interface Site { name: string; at: Vec; used: boolean }
export interface Station { name: string; bodies: Body[]; rails: [number, number, number][]; grips: Vec[]; sites: Site[] }
export interface Cue { from: number; to: number; text: string }
export interface Branch {
  name: string; to: number; people: Person[]; arms: Arm[]; things: Thing[]; ground: Deed[]; light: State[]; sky: Record<string, State[]>; cues: Cue[];
}
export interface Whole {
  playback: number; caution: string; draft: string | null; title: string; outline: string; plan: string; petZero: string;
  from: number; speed: number; station: Station; model: string | null; branches: Branch[]; sun: number[][] | null; earth: number[] | null;
  chart: { left: number; right: number; from: number; to: number; top: number }; words: Record<string, string>;
}
/** The whole with the branch that is played. Playing the other one puts its lists in the place of these. */
export type Playback = Whole & Branch;

/** The form that this page was written for. */
export const version = 2;

/** The last entry whose time is not after a moment; -1 before the first. */
export function indexAt<T>(list: readonly T[], time: (one: T) => number, moment: number): number {
  let low = 0, high = list.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (time(list[middle]!) <= moment) low = middle + 1; else high = middle;
  }
  return low - 1;
}

export function stateAt(list: readonly State[], moment: number): string {
  return list[indexAt(list, one => one.at, moment)]?.is ?? "";
}

/** A list of moments with figures, straight in between; null where the entry has no figures. */
export function figuresAt(list: readonly number[][], moment: number): number[] | null {
  const i = indexAt(list, one => one[0]!, moment);
  const now = list[i];
  if (!now || now.length < 2) return null;
  const next = list[i + 1];
  if (!next || next.length < 2 || next[0] === now[0]) return now.slice(1);
  const part = (moment - now[0]!) / (next[0]! - now[0]!);
  return now.slice(1).map((value, k) => value + (next[k + 1]! - value) * part);
}

export function deedAt(list: readonly Deed[], moment: number): Deed | null {
  return list.find(deed => deed.from <= moment && moment < deed.to) ?? null;
}

/** A moment of the walk, h:mm:ss. */
export function pet(seconds: number): string {
  const size = Math.abs(Math.trunc(seconds));
  const two = (value: number) => String(value).padStart(2, "0");
  return `${seconds < 0 ? "-" : ""}${Math.floor(size / 3600)}:${two(Math.floor(size / 60) % 60)}:${two(size % 60)}`;
}
