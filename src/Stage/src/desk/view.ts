// What the desk hands to the page of one scenario (PlanView, PlanBeside and SortieMessage in C#). Times are seconds of PET. Nothing here knows a rule.

import type { Deed, Playback, State as Stands } from "../playback.js";

export interface Frame { left: number; right: number; from: number; to: number; top: number }
export interface Strip { person: string; name: string; top: number; bottom: number }
export interface Leg {
  id: string; title: string; job: string; jobTitle: string; must: boolean; person: string; place: string; from: number; to: number; pinned: string | null; held: boolean;
}
export interface Finding {
  number: number; rule: string; severity: "broken" | "near" | "note"; otherwise: boolean; who: string[]; at: number; sentence: string; figures: string; source: string; mend: string; leg: string | null;
}
export interface Return { kind: string; person: string | null; points: number[][] }
export interface Tight { kind: string; person: string | null; at: number; words: string }
export interface CeilingPiece { from: number; to: number; fromSeconds: number; toSeconds: number; binds: string }
export interface GearPlace { name: string; kind: string; where: Stands[] }
export interface Command { from: number; to: number; console: string; command: string; makes: string; for: string | null }
export interface Dead { name: string; from: number; to: number | null; longest: number | null }
export interface Inhibit { from: number; to: number; who: string; step: string; node: string; asked: number; open: string[] }
export interface LeftOut { job: string; title: string; must: boolean; value: number; why: string }

/** What an edit is answered with. */
export interface PlanView { svg: string; frame: Frame; width: number; petZero: string; strips: Strip[]; legs: Leg[]; findings: Finding[] }

/** What is so at each moment; it comes after the chart. */
export interface Beside {
  returns: Return[]; tight: Tight[]; ceiling: CeilingPiece[]; gear: GearPlace[]; commands: Command[]; dead: Dead[]; inhibits: Inhibit[]; inside: Deed[]; leftOut: LeftOut[]; playback: Playback;
}

export interface Told { severity: "broken" | "near" | "note"; at: number; sentence: string }
export interface Difference { words: string[]; gained: Told[]; lost: Told[] }

/** How the sortie stands, for all who look. */
export interface State {
  revision: number;
  /** At which texts changed last: what is so at each moment changes with it, and with nothing else. */
  textRevision: number;
  /** `clean` only once everything that can be looked at was. */
  standing: "clean" | "broken" | "open" | "none";
  summary: string; proving: string; notChecked: string[];
  lastChange: string; difference: Difference | null; changes: string[];
  view: PlanView | null;
}

/** What is one's own: why one may change nothing, null for a planner; and what undo and redo would do. */
export interface Own { mayNot: string | null; undo: string | null; redo: string | null }

export interface Message { own: Own; state: State }

/** What came of something that was asked of the desk: said aloud, and, where it is refused, shown as well. */
export interface Answer extends Message { said: string; refused: boolean; spent: number }

export interface Edit { kind: "move" | "pin" | "unpin" | "stay" | "leave" | "back" | "undo" | "redo"; leg?: string; job?: string; person?: string; before?: string | null; moment?: number }
