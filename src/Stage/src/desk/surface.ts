import { element, setText } from "../page.js";
import { pet } from "../playback.js";
import { isSame, legBeside, placeAcross, placeAt, placeBeside, placeOf, placeWords, type Place } from "./order.js";
import type { Edit, Finding, Leg, PlanView } from "./view.js";
import { arrange, Picture, set } from "./picture.js";
import { StretchedChart, TimeWindow } from "./window.js";

export interface Asked {
  edit(edit: Edit): void;
  go(moment: number): void;
  chosen(leg: Leg | null): void;
  finding(finding: Finding): void;
  say(words: string): void;
  /** A stretch is being moved: an edit is about to come. */
  taken(): void;
  /** Nothing is held any more. */
  rests(): void;
}

const still = 4;

/** The range chart, to look at and to take hold of. */
export class Surface {
  readonly pane: HTMLElement;
  readonly slider = element("input", { type: "range", class: "moment", step: "1", "aria-label": "Moment of the walk" });
  private readonly sheet = element("div", { class: "face" });
  private readonly marks = element("div", { class: "marks", role: "listbox", "aria-label": "Stretches of work: arrows choose, Shift with arrows moves, P pins, Delete leaves the job out" });
  private readonly cursor = element("div", { class: "cursor", "aria-hidden": "true" });
  private readonly ghost = element("div", { class: "ghost", "aria-hidden": "true", hidden: true }, element("span"));
  private readonly caret = element("div", { class: "caret", "aria-hidden": "true", hidden: true });
  private readonly whole = element("button", { type: "button", disabled: true }, "Whole walk");
  private readonly nodes = new Map<string, HTMLElement>();
  private svg: SVGSVGElement | null = null;
  private picture!: Picture;
  private drawn: StretchedChart | null = null;
  private window!: TimeWindow;
  private view!: PlanView;
  private high = 1;
  private moment = 0;
  private selected: string | null = null;
  private moving: string | null = null;
  /** What had the focus before another chart came. */
  private focused: string | null = null;
  private drag: { leg: Leg; pointer: number; grip: number; x: number; y: number; moved: boolean; place: Place | null; node: HTMLElement } | null = null;
  planner = false;

  constructor(private readonly asked: Asked, private readonly zero: () => number) {
    const nearer = element("button", { type: "button", "aria-label": "Less time, larger" }, "+"), farther = element("button", { type: "button", "aria-label": "More time, smaller" }, "−");
    nearer.addEventListener("click", () => this.zoom(this.moment, 1.6));
    farther.addEventListener("click", () => this.zoom(this.moment, 1 / 1.6));
    this.whole.addEventListener("click", () => { this.window.whole(); this.lay(); });
    this.sheet.append(this.marks, this.caret, this.ghost, this.cursor);
    const box = element("div", { class: "scroll", tabindex: "0", role: "group", "aria-label": "Range chart" }, this.sheet);
    this.pane = element("div", { class: "chart" }, box, element("div", { class: "time" }, this.slider, element("span", { class: "zoom", role: "group", "aria-label": "Part of the walk shown" }, farther, nearer, this.whole)));
    this.slider.addEventListener("input", () => this.asked.go(Number(this.slider.value)));
    this.sheet.addEventListener("pointerdown", event => this.down(event));
    this.sheet.addEventListener("pointermove", event => this.move(event));
    this.sheet.addEventListener("pointerup", event => this.up(event));
    this.sheet.addEventListener("pointercancel", () => this.cancel());
    this.sheet.addEventListener("click", event => {
      const finding = this.findingAt(event.target as Element);
      if (!finding) return;
      event.stopPropagation();
      this.asked.finding(finding);
    });
    this.sheet.addEventListener("wheel", event => this.wheel(event), { passive: false });
    this.pane.addEventListener("keydown", event => this.key(event));
  }

  /** How wide and high the place of the chart is, its letters as large as those of the page. */
  get wanted(): [number, number] {
    const letter = parseFloat(getComputedStyle(document.documentElement).fontSize) / 14.5, box = this.pane.firstElementChild!;
    return [box.clientWidth / letter, box.clientHeight / letter];
  }

  show(view: PlanView): void {
    this.focused = this.marks.contains(document.activeElement) ? (document.activeElement as HTMLElement).dataset["key"] ?? null : null;
    this.letGo();
    this.view = view;
    if (this.moving && this.find(this.moving)) this.selected = this.moving;
    // Taken back, or given to somebody else by others: the hand stays on the same leg.
    else if (this.selected && !this.find(this.selected)) {
      const same = view.legs.find(leg => leg.id === this.selected!.split(" ").at(-1));
      this.selected = same ? keyOf(same) : null;
    }
    this.moving = null;
    if (this.window) this.window.use(view.frame);
    else this.window = new TimeWindow(view.frame);
    // Only what changed is laid out and painted anew; what was moved along the axis is not as it was drawn.
    if (!this.drawn || !this.drawn.isAsDrawn || !this.picture.patch(view.svg)) {
      this.sheet.querySelector("svg")?.remove();
      this.picture = new Picture(view.svg);
      this.sheet.prepend(this.picture.svg);
    }
    const svg = this.svg = this.picture.svg, [, top, , height] = svg.getAttribute("viewBox")!.split(" ").map(Number) as [number, number, number, number];
    this.high = height;
    for (const node of svg.querySelectorAll(".pointed")) node.classList.remove("pointed");
    this.drawn = new StretchedChart(svg, this.window, this.clip(top, height));
    this.make();
    this.lay();
    if (this.selected && !this.find(this.selected)) this.choose(null);
  }

  /** Gives the focus back that a new chart took: when all that is new stands, for it lays out the page. */
  refocus(): void {
    const focus = this.focused ? this.nodes.get(this.selected ?? this.focused) : undefined;
    this.focused = null;
    if (focus && focus !== document.activeElement) focus.focus({ preventScroll: true });
  }

  /** What keeps what is moved along the axis within it; its name. */
  private clip(top: number, height: number): string {
    const { left, right } = this.view.frame, name = "chart-clip", svg = this.svg!;
    let clip = svg.querySelector(`:scope > #${name}`);
    if (!clip) {
      clip = document.createElementNS(svg.namespaceURI, "clipPath");
      clip.id = name;
      clip.append(document.createElementNS(svg.namespaceURI, "rect"));
      svg.append(clip);
    }
    set(clip.firstElementChild!, { x: `${left}`, y: `${top}`, width: `${right - left}`, height: `${height}` });
    return name;
  }

  /** Whether a stretch is being dragged: the chart is not changed under the hand. */
  get held(): boolean {
    return this.drag?.moved ?? false;
  }

  get chosen(): Leg | null {
    return this.selected ? this.find(this.selected) : null;
  }

  /** The cursor to a moment. */
  at(moment: number): void {
    this.moment = moment;
    const before = this.window.from;
    this.window.reach(moment);
    if (this.window.from !== before) this.lay();
    this.place(this.cursor, this.window.x(moment));
    this.slider.value = String(Math.round(moment));
    this.slider.setAttribute("aria-valuetext", `PET ${pet(moment)}, ${new Date(this.zero() + moment * 1000).toISOString().slice(11, 19)} UTC`);
  }

  choose(leg: Leg | null, focus = false): void {
    this.selected = leg ? keyOf(leg) : null;
    for (const [key, node] of this.nodes) {
      const isOn = key === this.selected;
      set(node, { "aria-selected": String(isOn), tabindex: isOn || (!this.selected && node === this.nodes.values().next().value) ? "0" : "-1" });
    }
    if (leg && focus) this.nodes.get(keyOf(leg))?.focus({ preventScroll: false });
    this.asked.chosen(leg);
  }

  /** Brings a finding into sight. */
  look(finding: Finding): void {
    this.window.reach(finding.at);
    this.lay();
    for (const node of this.svg!.querySelectorAll(".pointed")) node.classList.remove("pointed");
    const node = this.svg!.querySelector(`[data-finding="${finding.number}"]`);
    node?.classList.add("pointed");
    node?.scrollIntoView({ block: "nearest" });
  }

  /** Asks for a move of the chosen leg. */
  shift(way: "earlier" | "later" | "up" | "down"): void {
    const leg = this.chosen;
    if (!leg) return;
    const { legs, strips } = this.view;
    const place = way === "earlier" || way === "later" ? placeBeside(legs, leg, way === "earlier" ? -1 : 1) : placeAcross(legs, strips, leg, way === "up" ? -1 : 1);
    if (place) this.ask(leg, place);
    else this.asked.say(way === "earlier" ? "It is the first already." : way === "later" ? "It is the last already." : "There is nobody on that side.");
  }

  pin(): void {
    const leg = this.chosen;
    if (leg) this.asked.edit(leg.pinned ? { kind: "unpin", leg: leg.id } : { kind: "pin", leg: leg.id });
  }

  leave(): void {
    const leg = this.chosen;
    if (leg) this.asked.edit({ kind: "leave", job: leg.job });
  }

  private findingAt(node: Element): Finding | undefined {
    const told = node.closest<SVGElement>("[data-finding]");
    return told ? this.view.findings[Number(told.dataset["finding"]) - 1] : undefined;
  }

  private find(key: string): Leg | null {
    return this.view.legs.find(leg => keyOf(leg) === key) ?? null;
  }

  private make(): void {
    // A stretch that stays keeps its place on the page, and with it the focus.
    const before = new Map(this.nodes), groups = new Map([...this.marks.children].map(group => [(group as HTMLElement).dataset["person"], group]));
    this.nodes.clear();
    arrange(this.marks, this.view.strips.map(strip => {
      const group = groups.get(strip.person) ?? element("div", { role: "group", "aria-label": `${strip.person}, ${strip.name}`, "data-person": strip.person }), stretches: HTMLElement[] = [];
      for (const leg of this.view.legs.filter(one => one.person === strip.person)) {
        const about = this.view.findings.filter(one => one.leg === leg.id && one.severity === "broken").length;
        const words = [`${leg.title}, ${leg.place}`, `${leg.person}, PET ${pet(leg.from)} to ${pet(leg.to)}`, ...(leg.pinned ? [`pinned: ${leg.pinned}`] : []), ...(about ? [`${about} broken here`] : [])].join("; ");
        const key = keyOf(leg), node = before.get(key) ?? this.stretch(leg, key), isOn = key === this.selected;
        set(node, { "aria-label": words, title: words, "aria-selected": String(isOn), tabindex: isOn || (!this.selected && this.nodes.size === 0) ? "0" : "-1" });
        node.classList.toggle("pinned", leg.pinned !== null);
        node.classList.toggle("broken", about > 0);
        this.nodes.set(key, node);
        stretches.push(node);
      }
      arrange(group, stretches);
      return group;
    }));
  }

  private stretch(leg: Leg, key: string): HTMLElement {
    const node = element("div", { class: "stretch", role: "option", "data-key": key, "data-leg": leg.id, "data-person": leg.person }, element("i", { "aria-hidden": "true" }));
    node.addEventListener("focus", () => {
      const now = this.find(key);
      if (now && !this.drag && key !== this.selected) this.choose(now);
    });
    return node;
  }

  /** Puts everything where the window has it. */
  private lay(): void {
    this.drawn!.show();
    const { left, right, top } = this.view.frame;
    for (const leg of this.view.legs) {
      const strip = this.view.strips.find(one => one.person === leg.person), node = this.nodes.get(keyOf(leg));
      if (!strip || !node) continue;
      const from = Math.max(left, this.window.x(leg.from)), to = Math.min(right, this.window.x(leg.to));
      node.hidden = to <= from;
      this.box(node, from, strip.top - top, Math.max(6, to - from), strip.bottom - strip.top + 7);
    }
    const moments = this.slider;
    [moments.min, moments.max] = [String(Math.ceil(this.window.from)), String(Math.floor(this.window.to))];
    moments.value = String(Math.round(this.moment));
    moments.style.marginInlineStart = `${left / this.view.width * 100}%`;
    moments.style.width = `${(right - left) / this.view.width * 100}%`;
    this.whole.disabled = this.window.isWhole;
    this.place(this.cursor, this.window.x(this.moment));
  }

  private place(node: HTMLElement, x: number): void {
    const { left, right } = this.view.frame;
    node.style.left = `${x / this.view.width * 100}%`;
    node.classList.toggle("out", x < left - 1 || x > right + 1);
  }

  private box(node: HTMLElement, x: number, y: number, wide: number, high: number): void {
    Object.assign(node.style, { left: `${x / this.view.width * 100}%`, top: `${y / this.high * 100}%`, width: `${wide / this.view.width * 100}%`, height: `${high / this.high * 100}%` });
  }

  private zoom(at: number, factor: number): void {
    this.window.zoom(at, factor);
    this.lay();
  }

  /** Where a pointer is, in the units of the picture. */
  private spot(event: PointerEvent | WheelEvent): { x: number; y: number } {
    const box = this.sheet.getBoundingClientRect();
    return { x: (event.clientX - box.left) / box.width * this.view.width, y: (event.clientY - box.top) / box.height * this.high + this.view.frame.top };
  }

  // ------------------------------------------------------------------ pointer
  private down(event: PointerEvent): void {
    if (event.button !== 0 || (event.target as Element).closest("[data-finding]")) return;
    const node = (event.target as Element).closest<HTMLElement>(".stretch"), leg = node ? this.find(node.dataset["key"]!) : null, { x } = this.spot(event);
    this.letGo();
    this.sheet.setPointerCapture(event.pointerId);
    if (leg && node) {
      event.preventDefault();
      this.drag = { leg, node, pointer: event.pointerId, grip: this.window.moment(x) - leg.from, x: event.clientX, y: event.clientY, moved: false, place: null };
      this.choose(leg, true);
    } else if (x >= this.view.frame.left - 4 && x <= this.view.frame.right + 4) {
      this.scrub = event.pointerId;
      this.asked.go(this.window.moment(x));
    }
  }

  private scrub: number | null = null;

  private move(event: PointerEvent): void {
    const { x, y } = this.spot(event);
    if (this.scrub === event.pointerId) {
      this.asked.go(Math.min(this.view.frame.to, Math.max(this.view.frame.from, this.window.moment(x))));
      return;
    }
    const drag = this.drag;
    if (!drag || drag.pointer !== event.pointerId || !this.planner) return;
    if (!drag.moved && Math.hypot(event.clientX - drag.x, event.clientY - drag.y) < still) return;
    if (!drag.moved) {
      drag.moved = true;
      this.asked.taken();
    }
    const strip = this.view.strips.reduce((best, one) => Math.abs((one.top + one.bottom) / 2 - y) < Math.abs((best.top + best.bottom) / 2 - y) ? one : best);
    const from = this.window.moment(x) - drag.grip, length = drag.leg.to - drag.leg.from;
    drag.place = placeAt(this.view.legs, drag.leg, strip.person, from);
    this.sheet.classList.add("dragging");
    drag.node.classList.add("held");
    this.ghost.hidden = false;
    this.box(this.ghost, this.window.x(from), strip.top - this.view.frame.top, this.window.x(from + length) - this.window.x(from), strip.bottom - strip.top);
    const stays = isSame(drag.place, placeOf(this.view.legs, drag.leg));
    setText(this.ghost.firstElementChild!, `${pet(from)} · ${stays ? "as it is" : placeWords(this.view.legs, drag.leg, drag.place)}`);
    this.ghost.classList.toggle("stays", stays);
    // The gap between its neighbours that it will go into.
    const list = this.view.legs.filter(one => one.person === strip.person && one.id !== drag.leg.id).sort((one, other) => one.from - other.from);
    const after = list.findIndex(one => one.id === drag.place!.before), next = after < 0 ? null : list[after]!, last = after < 0 ? list.at(-1) : list[after - 1];
    const gap = next && last ? (last.to + next.from) / 2 : next ? next.from - 60 : last ? last.to + 60 : from;
    this.caret.hidden = stays;
    this.box(this.caret, this.window.x(gap) - 1.5, strip.top - this.view.frame.top - 6, 3, strip.bottom - strip.top + 12);
  }

  private up(event: PointerEvent): void {
    if (this.scrub === event.pointerId) {
      this.scrub = null;
      return;
    }
    const drag = this.drag;
    if (!drag || drag.pointer !== event.pointerId) return;
    if (drag.moved && drag.place && !isSame(drag.place, placeOf(this.view.legs, drag.leg))) {
      // It stays where it was let go until the answer: until then nothing new is to be seen, and nothing is drawn.
      this.rest(true);
      this.ask(drag.leg, drag.place);
      return;
    }
    this.rest();
    if (drag.moved) return;
    // What lies under the stretch and tells of it.
    const under = document.elementsFromPoint(event.clientX, event.clientY), finding = under.map(one => this.findingAt(one)).find(one => one !== undefined);
    if (finding) this.asked.finding(finding);
    else this.asked.go(drag.leg.from);
  }

  private cancel(): void {
    if (!this.drag) return;
    const moved = this.drag.moved;
    this.rest();
    if (moved) this.asked.say("Let go; nothing was moved.");
  }

  private rest(asks = false): void {
    if (this.drag && this.sheet.hasPointerCapture(this.drag.pointer)) this.sheet.releasePointerCapture(this.drag.pointer);
    this.drag = null;
    if (!asks) this.letGo();
    queueMicrotask(() => this.asked.rests());
  }

  /** Takes away what showed where a stretch would go. */
  letGo(): void {
    if (this.drag) return;
    this.sheet.querySelector(".held")?.classList.remove("held");
    this.sheet.classList.remove("dragging");
    this.ghost.hidden = this.caret.hidden = true;
  }

  private ask(leg: Leg, place: Place): void {
    // Where it will be, for it may land on another strip.
    this.moving = `${place.person} ${leg.id}`;
    this.asked.edit({ kind: "move", leg: leg.id, person: place.person, before: place.before });
  }

  private wheel(event: WheelEvent): void {
    if (event.ctrlKey) {
      event.preventDefault();
      this.zoom(this.window.moment(this.spot(event).x), Math.exp(-event.deltaY / 300));
    } else if (event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY)) {
      event.preventDefault();
      this.window.pan((event.shiftKey && event.deltaX === 0 ? event.deltaY : event.deltaX) / 900 * (this.window.to - this.window.from));
      this.lay();
    }
  }

  // ------------------------------------------------------------------ keys
  private key(event: KeyboardEvent): void {
    if (event.target === this.slider) return;
    if (event.key === "Escape" && this.drag) {
      event.preventDefault();
      this.cancel();
      return;
    }
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const done = this.act(event);
    if (!done) return;
    event.preventDefault();
    event.stopPropagation();
  }

  private act(event: KeyboardEvent): boolean {
    const leg = this.marks.contains(event.target as Node) ? this.chosen : null;
    const ways: Record<string, ["left" | "right" | "up" | "down", "earlier" | "later" | "up" | "down"]> = { ArrowLeft: ["left", "earlier"], ArrowRight: ["right", "later"], ArrowUp: ["up", "up"], ArrowDown: ["down", "down"] };
    const way = ways[event.key];
    if (way && leg) {
      if (event.shiftKey) this.shift(way[1]);
      else {
        const to = legBeside(this.view.legs, this.view.strips, leg, way[0]);
        if (to) this.choose(to, true);
      }
      return true;
    }
    // About what is in hand, so that it stays in sight.
    const about = leg ? (leg.from + leg.to) / 2 : this.moment;
    switch (event.key) {
      case "+": case "=": this.zoom(about, 1.6); return true;
      case "-": this.zoom(about, 1 / 1.6); return true;
      case "0": this.window.whole(); this.lay(); return true;
      case ",": this.asked.go(this.moment - 60); return true;
      case ".": this.asked.go(this.moment + 60); return true;
    }
    if (!leg) return false;
    switch (event.key) {
      case "Enter": case " ": this.asked.go(leg.from); return true;
      case "p": case "P": this.pin(); return true;
      case "Delete": case "Backspace": this.leave(); return true;
      case "Escape": this.choose(null); return true;
      case "Home": case "End": {
        const list = this.view.legs.filter(one => one.person === leg.person), to = event.key === "Home" ? list[0] : list.at(-1);
        if (to) this.choose(to, true);
        return true;
      }
    }
    return false;
  }
}

const keyOf = (leg: Leg): string => `${leg.person} ${leg.id}`;
