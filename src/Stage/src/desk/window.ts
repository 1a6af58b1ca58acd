// The part of the time axis that is shown. Zooming moves what is drawn along the axis and leaves letters and signs as large as they are.

import type { Frame } from "./view.js";

const shortest = 600;

export class TimeWindow {
  from: number;
  to: number;

  constructor(public frame: Frame) {
    [this.from, this.to] = [frame.from, frame.to];
  }

  /** Another chart of the same walk: what is shown stays, as far as it still is on the axis. */
  use(frame: Frame): void {
    const whole = this.isWhole;
    this.frame = frame;
    if (whole) [this.from, this.to] = [frame.from, frame.to];
    else this.set(this.from, this.to);
  }

  get isWhole(): boolean {
    return this.from === this.frame.from && this.to === this.frame.to;
  }

  x(moment: number): number {
    const { left, right } = this.frame;
    return left + (right - left) * (moment - this.from) / (this.to - this.from);
  }

  moment(x: number): number {
    const { left, right } = this.frame;
    return this.from + (this.to - this.from) * (x - left) / (right - left);
  }

  /** Where something stands that the whole chart has at a place. */
  moved(x: number): number {
    const { left, right, from, to } = this.frame;
    return this.x(from + (to - from) * (x - left) / (right - left));
  }

  /** Nearer by a factor, a moment staying where it is. */
  zoom(at: number, factor: number): void {
    const length = Math.min(this.frame.to - this.frame.from, Math.max(shortest, (this.to - this.from) / factor)), part = (at - this.from) / (this.to - this.from);
    this.set(at - length * part, at + length * (1 - part));
  }

  pan(by: number): void {
    this.set(this.from + by, this.to + by);
  }

  whole(): void {
    [this.from, this.to] = [this.frame.from, this.frame.to];
  }

  /** Brings a moment into sight. */
  reach(moment: number): void {
    if (moment >= this.from && moment <= this.to) return;
    this.pan(moment - (this.from + this.to) / 2);
  }

  private set(from: number, to: number): void {
    const { from: first, to: last } = this.frame, length = Math.min(to - from, last - first), begin = Math.min(Math.max(from, first), last - length);
    [this.from, this.to] = [begin, begin + length];
  }
}

const small = 18;

/** Moves everything drawn on the axis to where the window has it. Done from what the chart was drawn with, so that no rounding adds up. */
export class StretchedChart {
  private readonly parts: { node: SVGElement; first: Record<string, string>; move: (at: (x: number) => number) => [Record<string, string>, number, number] }[] = [];
  private looked = false;

  constructor(private readonly svg: SVGSVGElement, private readonly window: TimeWindow, private readonly clip: string) {}

  /** Looks through what is drawn, once somebody looks nearer: an edit is answered with the whole chart as it was drawn. */
  private look(): void {
    this.looked = true;
    const { left, right } = this.window.frame;
    for (const node of this.svg.querySelectorAll<SVGElement>("line, path, rect, circle, text")) {
      const group = node.closest("g[id]")?.id ?? "";
      // The legend and the key stand on no moment.
      if (node.closest("defs, [id$='legend'], [id$='key'], [id$='title']") || /who-/.test(group)) continue;
      const part = partOf(node, left, right);
      if (part) this.parts.push(part);
    }
  }

  /** Whether everything stands as it was drawn. */
  get isAsDrawn(): boolean {
    return !this.svg.classList.contains("zoomed");
  }

  show(): void {
    const { left, right } = this.window.frame, whole = this.window.isWhole;
    if (!this.looked) {
      if (whole) return;
      this.look();
    }
    for (const { node, first, move } of this.parts) {
      if (whole) {
        for (const [name, value] of Object.entries(first)) node.setAttribute(name, value);
        node.removeAttribute("clip-path");
        node.removeAttribute("visibility");
        continue;
      }
      const [now, from, to] = move(x => this.window.moved(x));
      for (const [name, value] of Object.entries(now)) node.setAttribute(name, value);
      const out = to < left - 1 || from > right + 1;
      if (out) node.setAttribute("visibility", "hidden");
      else node.removeAttribute("visibility");
      if (!out && node.localName !== "text" && (from < left || to > right)) node.setAttribute("clip-path", `url(#${this.clip})`);
      else node.removeAttribute("clip-path");
    }
    this.svg.classList.toggle("zoomed", !whole);
  }
}

const figures = (text: string): number[] => (text.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);
const short = (value: number): string => String(Math.round(value * 100) / 100);

function partOf(node: SVGElement, left: number, right: number): { node: SVGElement; first: Record<string, string>; move: (at: (x: number) => number) => [Record<string, string>, number, number] } | null {
  const told = (name: string): number => Number(node.getAttribute(name) ?? "0"), first: Record<string, string> = {};
  const keep = (...names: string[]): void => { for (const name of names) if (node.hasAttribute(name)) first[name] = node.getAttribute(name)!; };
  const off = (from: number, to: number): boolean => to < left - 1 || from > right + 14;
  switch (node.localName) {
    case "line": {
      const [a, b] = [told("x1"), told("x2")];
      if (off(Math.min(a, b), Math.max(a, b))) return null;
      keep("x1", "x2");
      return { node, first, move: at => { const [p, q] = [at(a), at(b)]; return [{ x1: short(p), x2: short(q) }, Math.min(p, q), Math.max(p, q)]; } };
    }
    case "rect": {
      const x = told("x"), wide = told("width");
      if (off(x, x + wide) || x < left - 1) return null;
      keep("x", "width");
      return { node, first, move: at => { const [p, q] = [at(x), at(x + wide)]; return [{ x: short(p), width: short(Math.max(0, q - p)) }, p, q]; } };
    }
    case "circle": {
      const x = told("cx"), r = told("r");
      if (off(x, x)) return null;
      keep("cx");
      return { node, first, move: at => { const p = at(x); return [{ cx: short(p) }, p - r, p + r]; } };
    }
    case "text": {
      const x = told("x");
      if (off(x, x)) return null;
      keep("x", "transform");
      return { node, first, move: at => { const p = at(x), turn = first["transform"]; return [{ x: short(p), ...(turn ? { transform: turn.replace(/ -?[\d.]+ /, ` ${short(p)} `) } : {}) }, p, p]; } };
    }
    default: {
      const path = node.getAttribute("d") ?? "", numbers = figures(path), xs = numbers.filter((_, i) => i % 2 === 0), closed = path.endsWith("Z");
      const from = Math.min(...xs), to = Math.max(...xs);
      if (xs.length === 0 || off(from, to)) return null;
      keep("d");
      // A sign, such as a diamond, moves whole.
      const sign = closed && to - from <= small && xs.length <= 6;
      return {
        node, first, move: at => {
          const middle = (from + to) / 2, put = sign ? (x: number) => at(middle) + x - middle : at;
          const spots = xs.map((x, i) => `${i === 0 ? "M" : "L"}${short(put(x))} ${short(numbers[i * 2 + 1]!)}`).join("");
          return [{ d: spots + (closed ? "Z" : "") }, put(from), put(to)];
        },
      };
    }
  }
}
