// What the desk hands to the page of one scenario (PlanView and SortieMessage in C#). Times are seconds of PET. Nothing here knows a rule.

import type { Deed, Playback, State } from "../playback.js";

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
export interface GearPlace { name: string; kind: string; where: State[] }
export interface Command { from: number; to: number; console: string; command: string; makes: string; for: string | null }
export interface Dead { name: string; from: number; to: number | null; longest: number | null }
export interface Inhibit { from: number; to: number; who: string; step: string; node: string; asked: number; open: string[] }
export interface LeftOut { job: string; title: string; must: boolean; value: number; why: string }

export interface PlanView {
  svg: string; frame: Frame; width: number; strips: Strip[]; legs: Leg[]; findings: Finding[]; returns: Return[]; tight: Tight[]; ceiling: CeilingPiece[];
  gear: GearPlace[]; commands: Command[]; dead: Dead[]; inhibits: Inhibit[]; inside: Deed[]; leftOut: LeftOut[]; playback: Playback;
}

export interface Told { severity: "broken" | "near" | "note"; at: number; sentence: string }
export interface Difference { words: string[]; gained: Told[]; lost: Told[] }

/** How the sortie stands. */
export interface Message {
  revision: number;
  /** Whether the one who looks may change anything. */
  planner: boolean;
  /** `clean` only once everything that can be looked at was. */
  standing: "clean" | "broken" | "unproven" | "nothing";
  summary: string; proving: string; notChecked: string[];
  lastChange: string; difference: Difference | null; changes: string[];
  undo: string | null; redo: string | null;
  view: PlanView | null;
}

/** What came of something that was asked of the desk: said aloud, and, where it is refused, shown as well. */
export interface Answer { said: string; refused: boolean; message: Message | null }

export interface Edit { kind: "move" | "pin" | "unpin" | "stay" | "leave" | "back" | "undo" | "redo"; leg?: string; job?: string; person?: string; before?: string | null; moment?: number }
