// Return times looked up at a moment. Never told shorter than they are, and what is left never told longer.

import type { CeilingPiece } from "./view.js";

/** A return time at a moment: where it jumps, the longer one; -1 for no way back, which stays so until the next point; null outside. */
export function returnAt(points: readonly number[][], moment: number): number | null {
  const here = points.filter(point => point[0] === moment).map(point => point[1]!);
  if (here.length) return here.includes(-1) ? -1 : Math.max(...here);
  const next = points.findIndex(point => point[0]! > moment), from = points[next - 1], to = points[next];
  if (!from || !to) return null;
  if (from[1] === -1 || to[1] === -1) return -1;
  return from[1]! + (to[1]! - from[1]!) * (moment - from[0]!) / (to[0]! - from[0]!);
}

/** What the ceiling leaves at a moment; where two pieces meet, the lower one. */
export function ceilingAt(pieces: readonly CeilingPiece[], moment: number): { seconds: number; binds: string } | null {
  let least: { seconds: number; binds: string } | null = null;
  for (const piece of pieces) {
    if (moment < piece.from || moment > piece.to) continue;
    const seconds = piece.fromSeconds + (piece.toSeconds - piece.fromSeconds) * (piece.to === piece.from ? 0 : (moment - piece.from) / (piece.to - piece.from));
    if (!least || seconds < least.seconds) least = { seconds, binds: piece.binds };
  }
  return least;
}

export const minutesUp = (seconds: number): string => `${Math.ceil(seconds / 60 - 1e-9)} min`;
export const minutesDown = (seconds: number): string => `${Math.floor(seconds / 60 + 1e-9)} min`;
