import * as THREE from "three";
import { place } from "./geometry.js";
import { Labels, type Label } from "./labels.js";
import { deedAt, indexAt, type Playback } from "./playback.js";
import { Scene, inks } from "./scene.js";
import { View, type Following } from "./view.js";

/** The drawing in 3D. It draws when something changed, and rests otherwise. */
export class Stage3D {
  readonly labels = new Labels();
  readonly view: View;
  private readonly renderer: THREE.WebGLRenderer;
  private scene: Scene;
  private moment: number;
  private wanted = true;
  private readonly soft: boolean;
  private wide = 1;
  private high = 1;
  private under = false;
  private held = false;
  private last = 0;
  private shadowsAt = 0;
  private readonly calm = matchMedia("(prefers-reduced-motion: reduce)");
  /** How drawing went: frames drawn, and the last of them in milliseconds. */
  readonly told = { frames: 0, milliseconds: 0, calls: 0, triangles: 0 };

  /** Throws where the browser has no WebGL. */
  constructor(readonly canvas: HTMLCanvasElement, private playback: Playback, private readonly follows: () => Following) {
    const soft = this.soft = drawnInSoftware();
    const gl = canvas.getContext("webgl2", { antialias: !soft, alpha: false, powerPreference: "high-performance" });
    if (!gl) throw new Error("no WebGL");
    this.renderer = new THREE.WebGLRenderer({ canvas, context: gl });
    this.renderer.setPixelRatio(this.still());
    this.renderer.outputColorSpace = THREE.LinearSRGBColorSpace;
    this.renderer.shadowMap.enabled = true;
    this.renderer.shadowMap.type = soft ? THREE.BasicShadowMap : THREE.PCFShadowMap;
    this.renderer.shadowMap.autoUpdate = false;
    this.scene = new Scene(playback, soft ? 1024 : 2048);
    this.moment = playback.from;
    this.scene.show(this.moment);
    this.view = new View(canvas, playback, this.scene, () => this.want());
    new ResizeObserver(() => this.size()).observe(canvas.parentElement!);
    this.size();
  }

  private still(): number {
    return this.soft ? 1 : Math.min(2, devicePixelRatio);
  }

  /** Whether the walk plays: without a graphics processor it is then drawn more coarsely, and sharp again once it rests. */
  play(on: boolean): void {
    if (!this.soft) return;
    this.renderer.setPixelRatio(on ? 0.6 : this.still());
    this.want();
  }

  show(moment: number): void {
    this.moment = moment;
    this.want();
  }

  /** Another plan of the same walk, seen from where the one before was. */
  use(playback: Playback): void {
    this.scene.dispose();
    this.playback = playback;
    this.scene = new Scene(playback, this.soft ? 1024 : 2048);
    this.scene.show(this.moment);
    this.view.use(playback, this.scene);
    this.want();
  }

  /** Whether it keeps still: where it draws in software it would take the processor from what somebody waits for. */
  hold(on: boolean): void {
    this.held = on;
    if (!on && this.wanted) this.want();
  }

  /** Gives back what it draws with: a browser has few such for all its pages together. */
  end(): void {
    this.held = true;
    this.scene.dispose();
    this.renderer.dispose();
    this.renderer.forceContextLoss();
  }

  want(): void {
    this.wanted = true;
    if (this.under || this.held) return;
    this.under = true;
    requestAnimationFrame(now => this.frame(now));
  }

  private size(): void {
    const { clientWidth: width, clientHeight: height } = this.canvas.parentElement!;
    if (width === 0 || height === 0) return;
    [this.wide, this.high] = [width, height];
    this.renderer.setSize(width, height);
    this.view.camera.aspect = width / height;
    this.view.camera.updateProjectionMatrix();
    this.want();
  }

  private frame(now: number): void {
    this.under = false;
    if (this.held) return;
    const seconds = this.last === 0 ? 0 : Math.min(0.1, (now - this.last) / 1000);
    this.last = now;
    this.wanted = false;
    const began = performance.now();
    this.scene.show(this.moment);
    const moving = this.view.update(seconds, this.calm.matches || this.told.frames === 0);
    this.scene.follow(this.view.camera);
    if (this.scene.shadowsChanged && now - this.shadowsAt > 120) {
      this.renderer.shadowMap.needsUpdate = true;
      this.scene.shadowsChanged = false;
      this.shadowsAt = now;
    }
    this.renderer.render(this.scene.scene, this.view.camera);
    this.labels.show(this.names(), this.view.camera, this.wide, this.high);
    this.told.frames++;
    this.told.milliseconds = performance.now() - began;
    this.told.calls = this.renderer.info.render.calls;
    this.told.triangles = this.renderer.info.render.triangles;
    if (moving || this.wanted || this.scene.shadowsChanged) this.want();
    else this.last = 0;
  }

  /** Draws so many frames at even steps of the walk and waits for each: milliseconds a frame. */
  measure(frames: number): number {
    const gl = this.renderer.getContext(), one = new Uint8Array(4), began = performance.now();
    for (let i = 0; i < frames; i++) {
      this.scene.show(this.moment + i);
      this.renderer.shadowMap.needsUpdate = this.scene.shadowsChanged;
      this.scene.shadowsChanged = false;
      this.renderer.render(this.scene.scene, this.view.camera);
      gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, one);
    }
    return (performance.now() - began) / frames;
  }

  /** The most important first: people, then what is near whoever is followed, then places and bodies. */
  private names(): Label[] {
    const { playback, scene, moment } = this, following = this.follows();
    const people = playback.people.flatMap((person, i): Label[] => {
      const shown = scene.people[i];
      return shown ? [{ text: person.id, detail: short(deedAt(person.does, moment)?.text ?? ""), at: shown.head, ink: css(inks[i % inks.length]!), kind: "person" }] : [];
    });
    if (following.kind === "person") people.sort((one, other) => Number(other.text === playback.people[following.index]!.id) - Number(one.text === playback.people[following.index]!.id));
    const camera = this.view.camera.position;
    const things = playback.things.flatMap((thing, i): Label[] => {
      const at = scene.things[i], spot = thing.spots[indexAt(thing.spots, one => one.time, moment)];
      // What is carried stands on the card: here it would hide who carries it.
      return at && spot?.at && at.distanceTo(camera) < 24 ? [{ text: thing.name, at, kind: "thing" }] : [];
    });
    const sites = playback.station.sites.filter(site => site.used).map((site): Label => ({ text: site.name, at: place(site.at), kind: "site" }));
    const bodies = playback.station.bodies.map((body): Label => ({ text: body.name, at: place(body.from).lerp(place(body.to), 0.5), kind: "body" }));
    return [...people, ...things, ...sites, ...bodies];
  }
}

/** Whether the browser draws without a graphics processor: then every sample costs, and smooth edges are left out. */
function drawnInSoftware(): boolean {
  const probe = document.createElement("canvas").getContext("webgl2"), about = probe?.getExtension("WEBGL_debug_renderer_info");
  const name = probe && about ? String(probe.getParameter(about.UNMASKED_RENDERER_WEBGL)) : "";
  probe?.getExtension("WEBGL_lose_context")?.loseContext();
  return /swiftshader|llvmpipe|software/i.test(name);
}

export const css = (ink: number): string => `#${ink.toString(16).padStart(6, "0")}`;

const short = (text: string): string => text.length > 44 ? `${text.slice(0, 43)}…` : text;
