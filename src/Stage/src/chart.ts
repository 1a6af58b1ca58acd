import { element } from "./page.js";
import type { Playback } from "./playback.js";

/** The range chart with a cursor at the moment shown. */
export class Chart {
  readonly pane: HTMLElement;
  private readonly cursor = element("div", { class: "cursor", "aria-hidden": "true" });
  private readonly picture: SVGSVGElement;
  private readonly sheet: HTMLElement;
  private readonly wide: number;
  private moment = 0;
  private across = 0;

  constructor(private readonly playback: Playback, label: string, go: (moment: number) => void) {
    this.picture = (document.getElementById("st-chart") as HTMLTemplateElement).content.querySelector("svg")!;
    const [, , width, height] = this.picture.getAttribute("viewBox")!.split(" ").map(Number) as [number, number, number, number];
    this.wide = width;
    // The title block stands above on the page already.
    this.picture.setAttribute("viewBox", `0 ${playback.chart.top} ${width} ${height - playback.chart.top}`);
    this.picture.removeAttribute("width");
    this.picture.removeAttribute("height");
    this.sheet = element("div", { class: "sheet" });
    this.sheet.append(this.picture, this.cursor);
    this.pane = element("section", { class: "chart", "aria-label": label, tabindex: "0" }, this.sheet);
    this.sheet.addEventListener("click", event => {
      const box = this.sheet.getBoundingClientRect();
      const { left, right, from, to } = playback.chart;
      const x = (event.clientX - box.left) / box.width * width;
      if (x >= left - 4 && x <= right + 4) go(from + (to - from) * (x - left) / (right - left));
    });
    new ResizeObserver(() => {
      this.across = this.sheet.clientWidth;
      this.show(this.moment);
    }).observe(this.sheet);
  }

  show(moment: number): void {
    this.moment = moment;
    const { left, right, from, to } = this.playback.chart;
    const x = (left + (right - left) * (moment - from) / (to - from)) / this.wide * this.across;
    this.cursor.style.transform = `translateX(${x}px)`;
  }

  /** Brings the strip of a person into sight. */
  lookAt(person: string): void {
    const strip = this.picture.querySelector(`#${CSS.escape(`who-${person.replace(/[^A-Za-z0-9_.-]/g, "-")}`)}`);
    if (!strip) return;
    const top = strip.getBoundingClientRect().top - this.sheet.getBoundingClientRect().top;
    this.pane.scrollTop = Math.max(0, top - 40);
  }
}
