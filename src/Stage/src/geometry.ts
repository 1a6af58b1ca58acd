import * as THREE from "three";
import { mergeGeometries } from "three/examples/jsm/utils/BufferGeometryUtils.js";
import type { Body, Vec } from "./playback.js";

/** Station axes (x forward, y starboard, z down) as the drawing has them: y up. */
export const place = (at: readonly number[]): THREE.Vector3 => new THREE.Vector3(at[0], -at[2]!, at[1]);

/** A geometry in one colour, without what merging cannot join. */
export function coloured(geometry: THREE.BufferGeometry, colour: number): THREE.BufferGeometry {
  geometry.deleteAttribute("uv");
  const count = geometry.getAttribute("position").count, values = new Float32Array(count * 3), ink = new THREE.Color(colour);
  for (let i = 0; i < count; i++) ink.toArray(values, i * 3);
  return geometry.setAttribute("color", new THREE.BufferAttribute(values, 3));
}

export const merged = (parts: THREE.BufferGeometry[]): THREE.BufferGeometry => parts.length > 0 ? mergeGeometries(parts) : new THREE.BufferGeometry();

const up = new THREE.Vector3(0, 1, 0);

/** What lays a unit length along y between two points. */
export function along(from: THREE.Vector3, to: THREE.Vector3, width: number, target = new THREE.Matrix4()): THREE.Matrix4 {
  const axis = to.clone().sub(from), length = Math.max(axis.length(), 1e-4);
  const turn = new THREE.Quaternion().setFromUnitVectors(up, axis.divideScalar(length));
  return target.compose(from.clone().add(to).multiplyScalar(0.5), turn, new THREE.Vector3(width, length, width));
}

/** The frame of a body: its axis, the level direction across it, and the third, as shadows are reckoned with. */
function frame(body: Body): THREE.Matrix4 {
  const from = place(body.from), to = place(body.to), axis = to.clone().sub(from), length = axis.length();
  axis.normalize();
  // "Down" is -y here; for an axis that stands up, across the forward axis.
  const across = Math.abs(axis.y) > 0.999 ? new THREE.Vector3(1, 0, 0) : new THREE.Vector3(0, -1, 0);
  const level = axis.clone().cross(across).normalize(), third = axis.clone().cross(level);
  const basis = new THREE.Matrix4().makeBasis(level, axis, third.clone().multiplyScalar(level.clone().cross(axis).dot(third) < 0 ? -1 : 1));
  return new THREE.Matrix4().makeTranslation(from.clone().add(to).multiplyScalar(0.5)).multiply(basis).scale(new THREE.Vector3(1, length, 1));
}

export interface Skin { solid: THREE.BufferGeometry[]; thin: THREE.BufferGeometry[]; edges: THREE.BufferGeometry[] }

/** The bodies: a shell, bands that let the eye judge its length, and its edges. */
export function skins(bodies: readonly Body[]): Skin {
  const skin: Skin = { solid: [], thin: [], edges: [] };
  for (const body of bodies) {
    const at = frame(body), width = body.width, length = place(body.from).distanceTo(place(body.to));
    const add = (list: THREE.BufferGeometry[], geometry: THREE.BufferGeometry, colour: number) => list.push(coloured(geometry.applyMatrix4(at), colour));
    if (body.shape === "round") {
      add(skin.solid, new THREE.CylinderGeometry(width / 2, width / 2, 1, 24), 0xc9cdd2);
      const bands = Math.max(2, Math.round(length / 2.6));
      if (width > 1) for (let i = 0; i <= bands; i++)
        add(skin.solid, new THREE.CylinderGeometry(width / 2 + 0.04, width / 2 + 0.04, 0.16 / length, 24, 1, true).translate(0, (i / bands - 0.5) * (1 - 0.16 / length), 0), 0x9aa3ad);
      skin.edges.push(new THREE.EdgesGeometry(new THREE.CylinderGeometry(width / 2, width / 2, 1, 24), 40).applyMatrix4(at));
    } else {
      const thin = body.shape === "thin", thick = thin && width >= 1 ? 0.14 : width;
      add(thin ? skin.thin : skin.solid, new THREE.BoxGeometry(width, 1, thick), thin ? (width >= 1 ? 0x6d7f9c : 0xb8b2a4) : 0xb9bdb6);
      const bays = Math.max(1, Math.round(length / (thin ? 2 : 5)));
      const edge = thin ? 0x485a78 : 0x8d938f;
      if (width >= 1) for (let i = thin ? 1 : 0; i <= bays - (thin ? 1 : 0); i++)
        add(thin ? skin.thin : skin.solid, new THREE.BoxGeometry(width + 0.06, 0.18 / length, thick + 0.06).translate(0, (i / bays - 0.5) * (1 - 0.18 / length), 0), edge);
      skin.edges.push(new THREE.EdgesGeometry(new THREE.BoxGeometry(width, 1, thick)).applyMatrix4(at));
    }
  }
  return skin;
}

/** Somebody in a suit, standing with the feet at the origin, y away from the structure, facing -z. In the colour of the person at arms, legs and pack. */
export function suit(colour: number): THREE.BufferGeometry {
  const white = 0xf1f2f0, parts: THREE.BufferGeometry[] = [];
  const add = (geometry: THREE.BufferGeometry, ink: number) => parts.push(coloured(geometry, ink));
  add(new THREE.CapsuleGeometry(0.27, 0.42, 3, 8).translate(0, 1.12, 0), white);
  add(new THREE.SphereGeometry(0.23, 10, 7).translate(0, 1.68, 0), white);
  add(new THREE.SphereGeometry(0.19, 8, 6).translate(0, 1.69, -0.09), 0x8a6a1f);
  add(new THREE.BoxGeometry(0.52, 0.74, 0.26).translate(0, 1.24, 0.32), white);
  add(new THREE.BoxGeometry(0.54, 0.16, 0.28).translate(0, 1.48, 0.32), colour);
  for (const side of [-1, 1]) {
    add(new THREE.CapsuleGeometry(0.12, 0.55, 2, 6).translate(side * 0.16, 0.5, 0), white);
    add(new THREE.CylinderGeometry(0.145, 0.145, 0.16, 7).translate(side * 0.16, 0.55, 0), colour);
    const arm = new THREE.CapsuleGeometry(0.095, 0.5, 2, 6).rotateX(-1.05).translate(side * 0.36, 1.2, -0.26);
    add(arm, white);
    add(new THREE.CylinderGeometry(0.12, 0.12, 0.14, 7).rotateX(-1.05).translate(side * 0.36, 1.25, -0.18), colour);
  }
  return merged(parts);
}

/** The direction away from the structure at a point: from the nearest body's axis. */
export function outward(bodies: readonly Body[], at: THREE.Vector3): THREE.Vector3 {
  let nearest = Infinity;
  const away = new THREE.Vector3(0, 1, 0), line = new THREE.Line3(), on = new THREE.Vector3();
  for (const body of bodies) {
    line.set(place(body.from), place(body.to));
    const part = line.closestPointToPointParameter(at, false);
    line.closestPointToPoint(at, true, on);
    const distance = Math.abs(on.distanceTo(at) - body.width / 2);
    if (distance >= nearest) continue;
    nearest = distance;
    // Off an end, one stands on the end.
    if (part < 0 || part > 1) line.delta(away).multiplyScalar(part < 0 ? -1 : 1);
    else away.copy(at).sub(on);
  }
  return away.lengthSq() < 1e-6 ? new THREE.Vector3(0, 1, 0) : away.normalize();
}

/** Whether a body stands between two points. */
export function hidden(bodies: readonly Body[], from: THREE.Vector3, to: THREE.Vector3): boolean {
  const probe = new THREE.Vector3(), on = new THREE.Vector3(), line = new THREE.Line3();
  const steps = Math.min(40, Math.ceil(from.distanceTo(to) / 0.7));
  for (const body of bodies) {
    if (body.shape === "thin" && body.width < 1) continue;
    line.set(place(body.from), place(body.to));
    for (let i = 0; i < steps; i++) {
      probe.lerpVectors(from, to, i / steps);
      if (probe.distanceTo(to) < 1) continue;
      line.closestPointToPoint(probe, true, on);
      if (on.distanceTo(probe) < (body.shape === "thin" ? 0.4 : body.width / 2)) return true;
    }
  }
  return false;
}

export type { Vec };
