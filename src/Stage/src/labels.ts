import * as THREE from "three";
import { element, setText } from "./page.js";

export interface Label { text: string; detail?: string; at: THREE.Vector3; ink?: string; kind: "person" | "thing" | "site" | "body" }

/** Names over the drawing. Those that would cover a more important one are left out; people are always named. */
export class Labels {
  readonly layer = element("div", { class: "labels", "aria-hidden": "true" });
  private readonly nodes: HTMLElement[] = [];

  show(labels: readonly Label[], camera: THREE.Camera, width: number, height: number): void {
    // The upper left corner says how the light is known (.sun in the style sheet).
    const taken: [number, number, number, number][] = [[10 + width * 0.23, 26, width * 0.46, 26]], at = new THREE.Vector3();
    let used = 0;
    for (const label of labels) {
      at.copy(label.at).project(camera);
      const person = label.kind === "person";
      if (at.z > 1 && !person) continue;
      let x = (at.x + 1) / 2 * width, y = (1 - at.y) / 2 * height;
      if (!person && (x < 0 || x > width || y < 0 || y > height)) continue;
      const wide = person ? 52 + (label.detail?.length ?? 0) * 6.6 : label.text.length * 6.4 + 8, high = person ? 36 : 16;
      if (person) {
        // Whoever is out of the picture is named at its edge.
        if (at.z > 1) [x, y] = [width - x, height];
        x = Math.min(width - wide / 2 - 4, Math.max(wide / 2 + 4, x));
        y = Math.min(height - 76, Math.max(high + 30, y - 8));
        while (taken.some(other => over(other, x, y, wide, high)) && y > high + 30) y -= 12;
      }
      if (taken.some(other => over(other, x, y, wide, high)) && !person) continue;
      taken.push([x, y, wide, high]);
      const node = this.node(used++);
      const kind = `label ${label.kind}`, ink = label.ink ?? "#c8d2df";
      if (node.className !== kind) node.className = kind;
      setText(node.firstElementChild!, label.text);
      setText(node.lastElementChild!, label.detail ?? "");
      if (node.style.getPropertyValue("--ink") !== ink) node.style.setProperty("--ink", ink);
      // Whole points, and only where it has moved: what is written in vain is painted in vain.
      const moved = `translate(${Math.round(x)}px, ${Math.round(y)}px) translate(-50%, -100%)`;
      if (node.style.transform !== moved) node.style.transform = moved;
      if (node.hidden) node.hidden = false;
    }
    for (let i = used; i < this.nodes.length; i++) if (!this.nodes[i]!.hidden) this.nodes[i]!.hidden = true;
  }

  private node(i: number): HTMLElement {
    while (this.nodes.length <= i) {
      const node = element("div", { class: "label" }, element("b", { dir: "auto" }), element("span", { dir: "auto" }));
      this.nodes.push(node);
      this.layer.append(node);
    }
    return this.nodes[i]!;
  }
}

function over([x, y, wide, high]: [number, number, number, number], a: number, b: number, w: number, h: number): boolean {
  return Math.abs(x - a) < (wide + w) / 2 && b > y - high && b - h < y;
}
