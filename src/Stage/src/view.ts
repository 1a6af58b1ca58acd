import * as THREE from "three";
import { OrbitControls } from "three/examples/jsm/controls/OrbitControls.js";
import { hidden, place } from "./geometry.js";
import type { Playback } from "./playback.js";
import type { Scene } from "./scene.js";

export type Following = { kind: "free" } | { kind: "all" } | { kind: "person"; index: number } | { kind: "arm"; index: number };

/** Where one looks from: free, at everybody, or along with a person or an arm. */
export class View {
  readonly camera = new THREE.PerspectiveCamera(42, 1, 0.4, 14000);
  private readonly controls: OrbitControls;
  private following: Following = { kind: "all" };
  /** From what is looked at to the camera; null until it is chosen anew. */
  private offset: THREE.Vector3 | null = null;
  private chosen = 0;
  /** Once somebody turned the view, it stays as turned. */
  private turned = false;

  constructor(canvas: HTMLElement, private playback: Playback, private scene: Scene, private readonly changed: () => void) {
    this.controls = new OrbitControls(this.camera, canvas);
    this.controls.enableDamping = false;
    this.controls.minDistance = 3;
    this.controls.maxDistance = 260;
    this.controls.addEventListener("start", () => { this.turned = true; });
    this.controls.addEventListener("change", changed);
    const { center, radius } = scene.bounds;
    this.controls.target.copy(center);
    this.camera.position.copy(center).addScaledVector(this.directions()[0]!, radius * 2.4);
    this.camera.lookAt(center);
  }

  /** Another plan of the same walk. */
  use(playback: Playback, scene: Scene): void {
    [this.playback, this.scene] = [playback, scene];
  }

  follow(what: Following): void {
    this.following = what;
    this.turned = false;
    this.offset = null;
    this.changed();
  }

  /** Turns the view, radians, or goes nearer by a factor. */
  turn(aside: number, upward: number, nearer: number): void {
    this.turned = true;
    const offset = this.camera.position.clone().sub(this.controls.target), ball = new THREE.Spherical().setFromVector3(offset);
    ball.theta += aside;
    ball.phi = Math.min(Math.PI - 0.05, Math.max(0.05, ball.phi + upward));
    ball.radius = Math.min(260, Math.max(3, ball.radius * nearer));
    this.camera.position.copy(this.controls.target).add(offset.setFromSpherical(ball));
    this.offset = offset.clone();
    this.controls.update();
    this.changed();
  }

  /** Goes along. Says whether the camera is still under way. */
  update(seconds: number, calm: boolean): boolean {
    const aim = this.aim();
    if (aim) {
      const before = this.camera.position.clone().sub(this.controls.target);
      const now = performance.now();
      if (this.turned) this.offset = before;
      else if (!this.offset || now - this.chosen > 600) {
        this.offset = this.pick(aim, this.offset);
        this.chosen = now;
      }
      const part = calm || seconds <= 0 ? 1 : 1 - Math.exp(-seconds * 3.2);
      const target = this.controls.target, goal = aim.at.clone().add(this.offset!);
      const rest = target.distanceTo(aim.at) + this.camera.position.distanceTo(goal);
      target.lerp(aim.at, part);
      this.camera.position.lerp(goal, part);
      if (rest > 0.05) {
        this.controls.update();
        this.camera.updateMatrixWorld();
        return part < 1;
      }
    }
    this.camera.updateMatrixWorld();
    return false;
  }

  private aim(): { at: THREE.Vector3; away: THREE.Vector3; far: number } | null {
    const { scene, following } = this;
    if (following.kind === "free") return null;
    const up = new THREE.Vector3(0, 1, 0);
    if (following.kind === "person") {
      const shown = scene.people[following.index];
      if (shown) return { at: shown.at.clone().addScaledVector(shown.away, 1), away: shown.away, far: 9 };
    }
    if (following.kind === "arm") {
      const tip = scene.tips[following.index]!, foot = place(this.playback.arms[following.index]!.base);
      return { at: tip.clone().lerp(foot, 0.35), away: up, far: Math.max(14, tip.distanceTo(foot) * 1.7) };
    }
    const spots = scene.people.flatMap(shown => shown ? [shown.at] : []);
    if (spots.length === 0) return { at: scene.bounds.center, away: up, far: scene.bounds.radius * 2.1 };
    const ball = new THREE.Box3().setFromPoints(spots).getBoundingSphere(new THREE.Sphere());
    return { at: ball.center, away: up, far: Math.max(20, ball.radius * 3 + 9) };
  }

  /** Directions to look from, in station terms: from forward and starboard above, and round. */
  private directions(): THREE.Vector3[] {
    return [[1, 0.75, 1.1], [-1, 0.75, 1.1], [1, 0.75, -1.1], [-1, 0.75, -1.1], [0.2, 1.3, 0.6], [1, -0.7, 1.1], [-1, -0.7, 1.1], [1, -0.7, -1.1], [-1, -0.7, -1.1]]
      .map(([x, y, z]) => new THREE.Vector3(x, y, z).normalize());
  }

  /** The way to look that shows most, and turns least from the one before. */
  private pick(aim: { at: THREE.Vector3; away: THREE.Vector3; far: number }, before: THREE.Vector3 | null): THREE.Vector3 {
    const { bodies } = this.playback.station, spots = this.scene.people.flatMap(shown => shown ? [shown.at.clone().addScaledVector(shown.away, 1)] : []);
    const one = this.following.kind !== "all";
    const tries = this.directions().map(way => one ? way.addScaledVector(aim.away, 0.9).normalize() : way);
    if (before) tries.unshift(before.clone().normalize());
    let best = tries[0]!, most = -Infinity;
    tries.forEach((way, i) => {
      const from = aim.at.clone().addScaledVector(way, aim.far);
      const seen = (one ? [aim.at] : spots).filter(spot => !hidden(bodies, from, spot)).length;
      const worth = seen * 10 + (before && i === 0 ? 1.5 : 0) - i * 0.12;
      if (worth > most) [best, most] = [way, worth];
    });
    return best.clone().multiplyScalar(aim.far);
  }
}
