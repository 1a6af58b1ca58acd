// The page of one scenario in the browser: the desk hands over how the sortie stands, and is asked for edits; all else happens here.

import { element, setText } from "../page.js";
import { pet } from "../playback.js";
import { Panels } from "./panels.js";
import { arrange } from "./picture.js";
import type { ShownStage } from "./stage.js";
import { Surface } from "./surface.js";
import type { Answer, Beside, Edit, Finding, LeftOut, Leg, Message, Own, PlanView, State } from "./view.js";

/** Why what was asked before the connection went has no answer. */
class Lost extends Error {}

interface Desk { invokeMethodAsync<T>(method: string, ...values: unknown[]): Promise<T> }

/** The desk over a connection that may go and come back. What was asked before it went may never be answered, and what was told meanwhile never came: the one is given up, the other asked for. */
class Line {
  private readonly open = new Set<(why: Error) => void>();
  private readonly ended = new AbortController();

  constructor(private readonly desk: Desk, private readonly back: () => void) {
    document.getElementById("components-reconnect-modal")?.addEventListener("components-reconnect-state-changed", event => {
      if ((event as CustomEvent<{ state: string }>).detail.state !== "hide") return;
      const given = [...this.open];
      this.open.clear();
      for (const fail of given) fail(new Lost("the connection was lost"));
      this.back();
    }, { signal: this.ended.signal });
  }

  ask<T>(method: string, ...values: unknown[]): Promise<T> {
    return new Promise<T>((answered, failed) => {
      this.open.add(failed);
      this.desk.invokeMethodAsync<T>(method, ...values).then(answer => {
        if (this.open.delete(failed)) answered(answer);
        // The answer to what was given up came after all: what stands may be newer than what was asked for when the connection came back.
        else this.back();
      }, (why: Error) => {
        this.open.delete(failed);
        failed(why);
      });
    });
  }

  get over(): boolean {
    return this.ended.signal.aborted;
  }

  end(): void {
    this.ended.abort();
  }
}

/** How long an edit took, ms: the desk's own part, the way there and back, the page's, and until it was drawn; and all of it. */
interface Took { whole: number; desk: number; way: number; page: number; paint: number }

/** How long nothing was asked before what is beside the chart is, how much later the picture in 3D, and after how long the pointer tells that an answer is waited for, ms. */
const besideAfter = 250, stageAfter = 300, signAfter = 300;

const severities = { broken: "Broken", near: "Near", note: "Note" };

export class DeskPage {
  private readonly change = element("section", { class: "change", "aria-label": "What the last change did" });
  private readonly voice = element("p", { class: "sr", role: "status", "aria-live": "polite" });
  private readonly refused = element("p", { class: "refused", role: "alert", hidden: true });
  private readonly hand = element("section", { class: "hand", "aria-label": "The stretch in hand" });
  private readonly list = element("ol", { class: "told", "aria-label": "Findings" });
  private readonly listHead = element("h2", {}, "Findings");
  private readonly unseen = element("details", { class: "unseen" });
  private readonly stageBox = element("section", { class: "stage", "aria-label": "The station at the cursor" });
  private readonly undo = element("button", { type: "button", disabled: true }, "Undo");
  private readonly redo = element("button", { type: "button", disabled: true }, "Redo");
  private readonly surface: Surface;
  private readonly panels: Panels;
  private stage: ShownStage | null = null;
  private state: State | null = null;
  private own: Own = { mayNot: null, undo: null, redo: null };
  private moment = 0;
  private zero = 0;
  /** What came while a stretch was held. */
  private waiting: Message | null = null;
  private asking = 0;
  /** The findings on the page, by all they say. */
  private items = new Map<string, HTMLElement>();
  private later = 0;
  /** The texts that what is shown beside the chart is of. */
  private besideOf = -1;
  /** What is so at each moment, and not drawn in 3D yet. */
  private unstaged: Beside | null = null;
  /** For benches. */
  readonly took: Took[] = [];

  private readonly line: Line;

  constructor(private readonly root: HTMLElement, desk: Desk, private readonly stageUrl: string) {
    this.line = new Line(desk, () => void this.look().catch(() => {}));
    this.surface = new Surface({
      edit: edit => void this.edit(edit), go: moment => this.go(moment), chosen: leg => this.chosen(leg), finding: finding => this.point(finding), say: words => this.say(words),
      taken: () => {
        this.settle();
        void this.line.ask("TakeHold").catch(() => {});
      },
      rests: () => {
        const { waiting } = this;
        this.waiting = null;
        if (waiting) this.show(waiting);
        else this.settle();
      },
    }, () => this.zero);
    this.panels = new Panels({ go: moment => this.go(moment), edit: edit => void this.edit(edit), why: (left, answer) => void this.why(left, answer) });
    this.undo.addEventListener("click", () => void this.edit({ kind: "undo" }));
    this.redo.addEventListener("click", () => void this.edit({ kind: "redo" }));
    root.replaceChildren(
      this.change, this.refused, this.surface.pane, this.hand, element("div", { class: "side" }, this.stageBox, element("section", { class: "judged", "aria-label": "Findings" }, this.listHead, this.list, this.unseen)), this.panels.pane, this.voice);
    root.addEventListener("keydown", event => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || (event.target as Element).closest("input:not([type=range]), textarea, select")) return;
      const key = event.key.toLowerCase();
      if (key !== "z" && key !== "y") return;
      event.preventDefault();
      void this.edit({ kind: key === "y" || event.shiftKey ? "redo" : "undo" });
    });
    this.chosen(null);
  }

  show(message: Message): void {
    const { own, state } = message;
    if (this.state && state.revision < this.state.revision) return;
    if (this.surface.held) {
      this.waiting = message;
      return;
    }
    const first = !this.state?.view;
    [this.own, this.state] = [own, state];
    this.surface.planner = this.panels.planner = own.mayNot === null;
    this.tell(state);
    const { view } = state;
    if (!view) return;
    this.zero = Date.parse(view.petZero);
    if (first) this.moment = Math.max(view.frame.from, 0);
    this.moment = Math.min(view.frame.to, Math.max(view.frame.from, this.moment));
    // What is beside the chart comes after it; until then nothing of another plan stands there.
    if (this.besideOf !== state.textRevision) {
      this.panels.wait();
      this.stageBox.setAttribute("aria-busy", "true");
    }
    this.surface.show(view);
    this.findings(view.findings);
    this.chosen(this.surface.chosen);
    this.go(this.moment);
    this.surface.refocus();
    this.settle(first ? 0 : besideAfter);
  }

  go(moment: number): void {
    const view = this.state?.view;
    if (!view) return;
    this.moment = Math.min(view.frame.to, Math.max(view.frame.from, Math.round(moment)));
    this.surface.at(this.moment);
    this.panels.at(this.moment);
    this.stage?.show(this.moment);
    for (const node of this.list.children) node.classList.toggle("here", Math.abs(Number((node as HTMLElement).dataset["at"]) - this.moment) < 60);
  }

  get told(): { moment: number; asking: number; stage: { frames: number } | null; state: State | null; beside: boolean } {
    return { moment: this.moment, asking: this.asking, stage: this.stage?.told ?? null, state: this.state, beside: this.besideOf === this.state?.textRevision };
  }

  // ------------------------------------------------------------------ asking the desk
  /** Shows what stands, however often the connection goes meanwhile. */
  async look(): Promise<void> {
    try {
      this.show(read<Message>(await this.line.ask<Uint8Array>("Look", ...this.surface.wanted)));
    } catch (why) {
      if (why instanceof Lost) await this.look();
      else throw why;
    }
  }

  /** The page was left: nothing is asked any more, and what it was drawn with is given back. */
  end(): void {
    clearTimeout(this.later);
    this.line.end();
    this.stage?.end();
    this.root.replaceChildren();
  }

  private async edit(edit: Edit): Promise<void> {
    if (this.own.mayNot !== null) {
      this.surface.letGo();
      return this.refuse(this.own.mayNot);
    }
    const began = performance.now();
    this.asking++;
    this.settle();
    // An answer that comes at once needs no sign that it is waited for.
    const slow = window.setTimeout(() => this.root.classList.add("asking"), signAfter);
    try {
      const bytes = await this.line.ask<Uint8Array>("Do", edit, this.state?.revision ?? 0), came = performance.now();
      const answer = read<Answer>(bytes);
      if (answer.refused) this.refuse(answer.said);
      else this.refused.hidden = true;
      this.show(answer);
      const shown = performance.now();
      if (!answer.refused) painted(() => {
        const now = performance.now();
        this.took.push({ whole: now - began, desk: answer.spent, way: came - began - answer.spent, page: shown - came, paint: now - shown });
      });
      this.say(answer.said);
    } catch {
      this.refuse("The desk did not answer. What was accepted is saved in the files.");
    } finally {
      clearTimeout(slow);
      if (--this.asking === 0) {
        this.root.classList.remove("asking");
        this.surface.letGo();
      }
      this.settle();
    }
  }

  /**
   * What nobody waits for goes on once nobody waits: neither while a stretch is dragged nor until its answer is on the screen is anything asked beside it, or drawn in 3D. The 3D
   * picture of another plan than the one shown keeps still as it is, faint.
   */
  private settle(after = besideAfter): void {
    clearTimeout(this.later);
    if (this.line.over) return;
    const { state } = this, busy = this.asking > 0 || this.surface.held;
    this.stage?.hold(busy || this.unstaged !== null || this.besideOf !== state?.textRevision);
    if (busy || !state?.view) return;
    if (this.besideOf !== state.textRevision) this.later = window.setTimeout(() => void this.beside(state.textRevision), after);
    // The stage is what anybody waits for least.
    else if (this.unstaged) this.later = window.setTimeout(() => void this.restage(), this.stage ? stageAfter : 2 * stageAfter);
  }

  /** What is so at each moment of the plan shown. */
  private async beside(textRevision: number): Promise<void> {
    const bytes = await this.line.ask<Uint8Array>("Beside", textRevision).catch(() => new Uint8Array());
    if (bytes.length === 0 || this.state?.textRevision !== textRevision) return;
    const beside = read<Beside>(bytes);
    // The desk shows the likely branch of a decision.
    Object.assign(beside.playback, beside.playback.branches[0]);
    this.besideOf = textRevision;
    this.panels.use(beside);
    this.panels.at(this.moment);
    this.unstaged = beside;
    this.settle();
  }

  private async why(left: LeftOut, answer: HTMLElement): Promise<void> {
    setText(answer, "Searching with and without it; this takes a while …");
    try {
      setText(answer, await this.line.ask<string>("WhyOut", left.job));
    } catch {
      setText(answer, "The desk did not answer.");
    }
  }

  private refuse(words: string): void {
    this.refused.hidden = false;
    setText(this.refused, words);
  }

  private say(words: string): void {
    // The same words twice are said twice.
    this.voice.textContent = "";
    requestAnimationFrame(() => { this.voice.textContent = words; });
  }

  // ------------------------------------------------------------------ what is shown
  private tell(state: State): void {
    const { difference } = state, parts: HTMLElement[] = [element("p", { class: `proving ${state.standing}` }, state.proving), element("p", { class: "summary" }, state.summary)];
    if (state.lastChange) parts.push(element("p", { class: "last", dir: "auto" }, state.lastChange));
    if (difference) {
      parts.push(element("ul", { class: "sums" }, ...difference.words.map(words => element("li", {}, words))));
      for (const [name, told] of [["Gained", difference.gained], ["Gone", difference.lost]] as const) {
        if (!told.length) continue;
        parts.push(element("details", { class: name.toLowerCase() }, element("summary", {}, `${name}: ${count(told)}`), element("ul", {}, ...told.map(one => element("li", { dir: "auto" }, `${severities[one.severity]}: ${one.sentence}`)))));
      }
    }
    if (state.changes.length) parts.push(element("details", {}, element("summary", {}, `What came with it: ${state.changes.length}`), element("ul", {}, ...state.changes.map(one => element("li", { dir: "auto" }, one)))));
    const { mayNot, undo, redo } = this.own;
    this.undo.disabled = mayNot !== null || !undo;
    this.redo.disabled = mayNot !== null || !redo;
    this.undo.title = undo ? `${undo} (Ctrl+Z)` : "";
    this.redo.title = redo ? `${redo} (Ctrl+Y)` : "";
    this.change.replaceChildren(...parts, element("span", { class: "steps" }, this.undo, this.redo));
    this.unseen.replaceChildren(element("summary", {}, `Not checked, so not proven: ${state.notChecked.length}`), element("ul", {}, ...state.notChecked.map(one => element("li", {}, one))));
  }

  private findings(findings: readonly Finding[]): void {
    const broken = findings.filter(one => one.severity === "broken").length, near = findings.filter(one => one.severity === "near").length;
    setText(this.listHead, findings.length === 0 ? "No findings" : `Findings: ${broken} broken, ${near} near, ${findings.length - broken - near} to know`);
    const before = this.items;
    this.items = new Map();
    arrange(this.list, findings.map(finding => {
      const key = JSON.stringify(finding), same = before.get(key);
      if (same) {
        this.items.set(key, same);
        return same;
      }
      const button = element("button", { type: "button" }, element("b", { class: `sign ${finding.severity}`, "aria-hidden": "true" }, String(finding.number)),
        element("span", { class: "rule" }, `${severities[finding.severity]} · ${finding.rule}${finding.otherwise ? " · other branch" : ""}`), element("span", { class: "sentence", dir: "auto" }, finding.sentence));
      button.addEventListener("click", () => this.point(finding));
      const more = [finding.figures, finding.source ? `limit from: ${finding.source}` : ""].filter(Boolean).join("; ");
      const item = element("li", { class: finding.severity, "data-at": String(finding.at), "data-number": String(finding.number) }, button);
      if (more) item.append(element("p", { class: "sums", dir: "auto" }, more));
      if (finding.mend) item.append(element("p", { class: "mend", dir: "auto" }, `Mend: ${finding.mend}`));
      this.items.set(key, item);
      return item;
    }));
  }

  private point(finding: Finding): void {
    this.go(finding.at);
    this.surface.look(finding);
    for (const node of this.list.children) {
      const on = (node as HTMLElement).dataset["number"] === String(finding.number);
      node.classList.toggle("pointed", on);
      if (on) node.scrollIntoView({ block: "nearest" });
    }
    const leg = this.state?.view?.legs.find(one => one.id === finding.leg && (finding.who.length === 0 || finding.who.includes(one.person)));
    if (leg) this.surface.choose(leg);
    this.say(`PET ${pet(finding.at)}. ${finding.sentence}`);
  }

  private chosen(leg: Leg | null): void {
    if (!leg) {
      this.hand.replaceChildren(element("p", { class: "quiet" }, "Take hold of a stretch of work: drag it along its strip or onto another one, or choose it and press Shift with an arrow."));
      return;
    }
    const view = this.state!.view as PlanView, strip = view.strips.findIndex(one => one.person === leg.person), act = (name: string, on: boolean, does: () => void, key = ""): HTMLButtonElement => {
      const button = element("button", { type: "button", "data-act": name }, name);
      button.disabled = !on || this.own.mayNot !== null;
      if (key) button.title = key;
      button.addEventListener("click", does);
      return button;
    };
    this.hand.replaceChildren(
      element("p", { class: "what", dir: "auto" }, element("b", {}, leg.title), ` ${leg.person} · ${leg.place} · ${pet(leg.from)} – ${pet(leg.to)} · ${leg.jobTitle}${leg.pinned ? ` · pinned: ${leg.pinned}` : ""}`),
      element("span", { class: "row" },
        act("Earlier", true, () => this.surface.shift("earlier"), "Shift+←"), act("Later", true, () => this.surface.shift("later"), "Shift+→"),
        ...(strip > 0 ? [act(`To ${view.strips[strip - 1]!.person}`, true, () => this.surface.shift("up"), "Shift+↑")] : []),
        ...(strip >= 0 && strip + 1 < view.strips.length ? [act(`To ${view.strips[strip + 1]!.person}`, true, () => this.surface.shift("down"), "Shift+↓")] : []),
        act(leg.pinned ? "Unpin" : "Pin here", true, () => this.surface.pin(), "P"), act("Leave job out", true, () => this.surface.leave(), "Delete")));
  }

  private async restage(): Promise<void> {
    const { playback } = this.unstaged!;
    this.unstaged = null;
    if (this.stage) this.stage.use(playback);
    else if (!this.stageBox.dataset["tried"]) {
      this.stageBox.dataset["tried"] = "yes";
      try {
        const { open } = await import(this.stageUrl) as typeof import("./stage.js");
        if (this.line.over) return;
        this.stage = open(this.stageBox, playback);
        if (!this.stage) this.stageBox.append(element("p", { class: "none" }, "This browser cannot draw in 3D. Everything else here still works."));
      } catch {
        this.stageBox.append(element("p", { class: "none" }, "The drawing in 3D could not be loaded."));
      }
    }
    this.stage?.show(this.moment);
    this.settle();
    if (this.besideOf === this.state?.textRevision) this.stageBox.removeAttribute("aria-busy");
  }
}

/** Calls once what was changed is on the screen: after the next drawing, not before it. */
const painted = (then: () => void): void => {
  requestAnimationFrame(() => {
    const after = new MessageChannel();
    after.port1.onmessage = then;
    after.port2.postMessage(null);
  });
};

const count = (told: readonly { severity: string }[]): string => {
  const broken = told.filter(one => one.severity === "broken").length;
  return `${told.length} finding${told.length === 1 ? "" : "s"}${broken ? `, ${broken} broken` : ""}`;
};

const read = <T>(bytes: Uint8Array): T => JSON.parse(new TextDecoder().decode(bytes)) as T;

/** Called by the page once it is alive. */
export async function attach(root: HTMLElement, desk: Desk, stageUrl: string): Promise<{ show(bytes: Uint8Array): void; dispose(): void }> {
  const keep = [...root.childNodes], page = new DeskPage(root, desk, stageUrl), first = root.querySelector(".scroll > .face");
  // What was there before stays until the first answer.
  const before = keep.find((node): node is HTMLElement => node instanceof HTMLElement);
  if (before && first) first.prepend(...before.querySelectorAll("svg"));
  Object.assign(window, { sallyportDesk: page });
  try {
    await page.look();
  } catch (why) {
    page.end();
    throw why;
  }
  root.dataset["alive"] = "yes";
  return { show: bytes => page.show(read<Message>(bytes)), dispose: () => page.end() };
}
