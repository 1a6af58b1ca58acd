// The station in 3D at the cursor's moment: a bundle of its own, loaded once the rest is there.

import { element } from "../page.js";
import type { Playback } from "../playback.js";
import { Stage3D } from "../stage3d.js";
import type { Following } from "../view.js";

export interface ShownStage { show(moment: number): void; hold(on: boolean): void; use(playback: Playback): void; end(): void; told: { frames: number } }

/** Puts the drawing into a place; null where the browser cannot draw. */
export function open(box: HTMLElement, playback: Playback): ShownStage | null {
  let following: Following = { kind: "all" };
  const canvas = element("canvas", { tabindex: "0", role: "img", "aria-label": "The station in 3D at the cursor's moment. Arrow keys turn the view, plus and minus come nearer or go away." });
  box.append(canvas);
  let stage: Stage3D;
  try {
    stage = new Stage3D(canvas, playback, () => following);
  } catch {
    canvas.remove();
    return null;
  }
  const select = element("select", { "aria-label": "View of the station" });
  const fill = (of: Playback): void => {
    const options: [string, string][] = [["all", "Everybody"], ...of.people.map((person, i): [string, string] => [`person ${i}`, person.id]), ...of.arms.map((arm, i): [string, string] => [`arm ${i}`, arm.id]), ["free", "Free"]];
    const before = select.value || "all";
    select.replaceChildren(...options.map(([value, name]) => element("option", { value }, name)));
    select.value = options.some(([value]) => value === before) ? before : "all";
  };
  fill(playback);
  select.addEventListener("change", () => {
    const [kind, index] = select.value.split(" ");
    following = kind === "person" || kind === "arm" ? { kind, index: Number(index) } : { kind: kind === "free" ? "free" : "all" };
    stage.view.follow(following);
  });
  canvas.addEventListener("keydown", event => {
    const turns: Record<string, [number, number, number]> = { ArrowLeft: [-0.15, 0, 1], ArrowRight: [0.15, 0, 1], ArrowUp: [0, -0.12, 1], ArrowDown: [0, 0.12, 1], "+": [0, 0, 0.85], "-": [0, 0, 1 / 0.85] };
    const turn = turns[event.key];
    if (!turn || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    event.stopPropagation();
    stage.view.turn(...turn);
  });
  box.append(stage.labels.layer, element("p", { class: "sun" }, playback.sun ? "Light as the Sun stands" : "Where the Sun stands is not known"), element("span", { class: "follow" }, select));
  return { show: moment => stage.show(moment), hold: on => stage.hold(on), use: next => { fill(next); stage.use(next); }, end: () => stage.end(), told: stage.told };
}
