import * as THREE from "three";
import { along, coloured, merged, outward, place, skins, suit } from "./geometry.js";
import { model } from "./model.js";
import { figuresAt, indexAt, stateAt, type Playback } from "./playback.js";

// Colours go to the screen as they are: one power a sample less for who draws without a graphics processor.
THREE.ColorManagement.enabled = false;

/** The colours of people: those of their strips in the range chart, light enough for the dark of space. */
export const inks = [0x35b6cf, 0xf09a4a, 0xb695f0, 0x9ccc5a];

export interface Shown { at: THREE.Vector3; head: THREE.Vector3; away: THREE.Vector3 }

const rail = [0xd9c27a, 0xc98a5c, 0x7f8a96];
const kinds: Record<string, number> = { bag: 0xe8d9a8, part: 0xb9c4cf, tool: 0xa5b0a0, restraint: 0x9d8fb5, stock: 0xb0a090 };

/** Where one thing after another hangs on a suit: to the side, and behind. */
const hang = [[0.6, -0.1], [-0.6, -0.1], [0, -0.6], [0.6, 0.45], [-0.6, 0.45]];

/** Everything in 3D. It draws what the playback says is so at a moment. */
export class Scene {
  readonly scene = new THREE.Scene();
  readonly bounds: THREE.Sphere;
  readonly people: (Shown | null)[];
  readonly tips: THREE.Vector3[];
  readonly things: (THREE.Vector3 | null)[];
  private readonly sun = new THREE.DirectionalLight(0xffffff, 3);
  private readonly sky = new THREE.HemisphereLight(0xbfd4ff, 0x6f7a8c, 0.6);
  private readonly disc: THREE.Sprite;
  private readonly far = new THREE.Group();
  private readonly earth: THREE.Mesh | null;
  private readonly suits: THREE.Mesh[];
  private readonly tethers: THREE.InstancedMesh[];
  private readonly boxes: THREE.InstancedMesh;
  private readonly links: THREE.InstancedMesh;
  private readonly grips: THREE.Vector3[];
  private readonly away: THREE.Vector3[];
  private lit = new THREE.Vector3(9, 9, 9);
  /** Whether the shadows have to be drawn anew. */
  shadowsChanged = true;

  /** Gives back what the graphics processor holds of it. */
  dispose(): void {
    this.sun.shadow.dispose();
    this.scene.traverse(node => {
      if (node instanceof THREE.InstancedMesh) node.dispose();
      if (node instanceof THREE.Mesh || node instanceof THREE.LineSegments) {
        node.geometry.dispose();
        (node.material as THREE.Material).dispose();
      }
    });
  }

  constructor(private readonly playback: Playback, shadowSize: number) {
    const { station } = playback;
    this.scene.background = new THREE.Color(0x060a12);
    this.grips = station.grips.map(place);
    this.away = this.grips.map(at => outward(station.bodies, at));
    const points = [...this.grips, ...station.bodies.flatMap(body => [place(body.from), place(body.to)]), ...playback.arms.flatMap(arm => arm.path.filter(one => one.length > 1).map(one => place(one.slice(1))))];
    this.bounds = new THREE.Box3().setFromPoints(points.length > 0 ? points : [new THREE.Vector3()]).getBoundingSphere(new THREE.Sphere());

    const skin = playback.model ? { solid: model(playback.model), thin: [], edges: [] } : skins(station.bodies);
    const matter = new THREE.MeshLambertMaterial({ vertexColors: true });
    const solid = new THREE.Mesh(merged(skin.solid), matter);
    solid.castShadow = solid.receiveShadow = true;
    // One piece with what is thin: software draws many small pieces of one kind far slower than one large one.
    const rails = station.rails.map(([a, b, kind]) => coloured(rod().applyMatrix4(along(this.stand(a), this.stand(b), kind === 2 ? 0.05 : 0.1)), rail[kind]!));
    const thin = new THREE.Mesh(merged([...skin.thin, ...rails]), matter);
    thin.receiveShadow = true;
    const marks = station.sites.filter(site => site.used).map(site => {
      const at = place(site.at), turn = new THREE.Quaternion().setFromUnitVectors(new THREE.Vector3(0, 0, 1), outward(station.bodies, at));
      return new THREE.TorusGeometry(0.55, 0.06, 4, 16).applyQuaternion(turn).translate(at.x, at.y, at.z);
    });
    this.scene.add(solid, thin, new THREE.LineSegments(merged(skin.edges), new THREE.LineBasicMaterial({ color: 0x515b66 })), new THREE.Mesh(merged(marks), new THREE.MeshBasicMaterial({ color: 0xf3e6a0 })));

    // People are seen in the dark too: their suits shine a little by themselves.
    const cloth = new THREE.MeshLambertMaterial({ vertexColors: true, emissive: 0x2e3238 });
    this.suits = playback.people.map((_, i) => new THREE.Mesh(suit(inks[i % inks.length]!), cloth));
    this.tethers = playback.people.map((person, i) =>
      new THREE.InstancedMesh(rod(), new THREE.MeshBasicMaterial({ color: inks[i % inks.length]! }), Math.max(2, ...person.lines.map(line => line.grips.length + 2))));
    this.boxes = new THREE.InstancedMesh(new THREE.BoxGeometry(1, 1, 1), new THREE.MeshLambertMaterial(), Math.max(1, playback.things.length));
    playback.things.forEach((thing, i) => this.boxes.setColorAt(i, new THREE.Color(kinds[thing.kind] ?? 0xb0b0b0)));
    // An arm: two links and a post, and a cuff at each of its three ends.
    this.links = new THREE.InstancedMesh(merged([coloured(new THREE.CylinderGeometry(0.5, 0.5, 1, 10), 0xe4e6e2)]), matter, Math.max(1, playback.arms.length * 5));
    this.links.count = playback.arms.length * 5;
    for (const mesh of [...this.suits, ...this.tethers, this.boxes, this.links]) mesh.frustumCulled = false;
    this.scene.add(...this.suits, ...this.tethers, this.boxes, this.links);
    this.people = playback.people.map(() => null);
    this.tips = playback.arms.map(() => new THREE.Vector3());
    this.things = playback.things.map(() => null);

    this.sun.castShadow = true;
    this.sun.shadow.mapSize.set(shadowSize, shadowSize);
    const reach = this.bounds.radius, camera = this.sun.shadow.camera;
    Object.assign(camera, { left: -reach, right: reach, top: reach, bottom: -reach, near: 1, far: reach * 2 + 40 });
    this.sun.shadow.bias = -0.002;
    this.sun.shadow.normalBias = 0.08;
    this.sun.target.position.copy(this.bounds.center);
    this.scene.add(this.sun, this.sun.target, this.sky, this.far);

    this.disc = new THREE.Sprite(new THREE.SpriteMaterial({ color: 0xfff6dc, depthWrite: false, map: glow() }));
    this.disc.scale.setScalar(400);
    this.far.add(this.disc, stars());
    this.earth = playback.earth ? earth(playback.earth) : null;
    if (this.earth) this.far.add(this.earth);
  }

  /** A hand's height off the skin, so that rails and lines do not sink into it. */
  private stand(grip: number): THREE.Vector3 {
    return this.grips[grip]!.clone().addScaledVector(this.away[grip]!, 0.12);
  }

  /** Stars, Earth and Sun are as far away from wherever one looks. */
  follow(camera: THREE.Camera): void {
    this.far.position.copy(camera.position);
  }

  show(moment: number): void {
    this.light(moment);
    const { playback } = this;
    playback.arms.forEach((arm, i) => {
      const tip = figuresAt(arm.path, moment);
      if (tip) this.tips[i]!.copy(place(tip));
      this.arm(i);
    });
    this.links.instanceMatrix.needsUpdate = true;
    playback.people.forEach((person, i) => this.person(i, figuresAt(person.path, moment), moment));
    this.gear(moment);
  }

  private light(moment: number): void {
    const state = stateAt(this.playback.light, moment), seen = this.playback.sun && figuresAt(this.playback.sun, moment);
    const toward = seen ? place(seen).normalize() : new THREE.Vector3(0.4, 0.8, 0.45);
    this.sun.intensity = state === "night" ? 0 : state === "twilight" ? 0.8 : 1.9;
    this.sun.color.set(state === "twilight" ? 0xffb27a : 0xffffff);
    this.sky.intensity = state === "night" ? 1.7 : 1.3;
    this.sky.color.set(state === "night" ? 0x7fa0e0 : 0xcfdcff);
    this.disc.visible = seen !== null && state !== "night";
    this.disc.position.copy(toward).multiplyScalar(5000);
    // A degree of turn is less than the edge of a shadow shows.
    if (toward.angleTo(this.lit) > 0.02) {
      this.lit.copy(toward);
      if (this.earth) dayOn(this.earth, toward);
      this.sun.position.copy(this.bounds.center).addScaledVector(toward, this.bounds.radius + 20);
      this.shadowsChanged = true;
    }
  }

  private arm(i: number): void {
    const arm = this.playback.arms[i]!, foot = place(arm.base), tip = this.tips[i]!, out = outward(this.playback.station.bodies, foot);
    const root = foot.clone().addScaledVector(out, 0.9), link = (arm.reach * 1.04 + 1) / 2, span = tip.clone().sub(root), distance = Math.max(span.length(), 0.01);
    // The elbow bends away from the structure.
    const bend = out.clone().addScaledVector(span, -out.dot(span) / (distance * distance));
    if (bend.lengthSq() < 1e-4) bend.set(1, 0, 0).addScaledVector(span, -span.x / (distance * distance));
    const elbow = root.clone().addScaledVector(span, 0.5).addScaledVector(bend.normalize(), Math.sqrt(Math.max(0.05, link * link - distance * distance / 4)));
    const cuff = (at: THREE.Vector3) => along(at.clone().addScaledVector(out, -0.28), at.clone().addScaledVector(out, 0.28), 0.62);
    [along(foot, root, 0.5), along(root, elbow, 0.34), along(elbow, tip, 0.28), cuff(root), cuff(elbow)].forEach((matrix, k) => this.links.setMatrixAt(i * 5 + k, matrix));
  }

  private person(i: number, at: number[] | null, moment: number): void {
    const person = this.playback.people[i]!, mesh = this.suits[i]!, tether = this.tethers[i]!;
    mesh.visible = tether.visible = at !== null;
    if (!at) {
      this.people[i] = null;
      return;
    }
    const where = place(at), away = outward(this.playback.station.bodies, where);
    // Two at one grip stand side by side.
    const other = this.people.findIndex((shown, k) => k < i && shown !== null && shown.at.distanceTo(where) < 0.8);
    const ahead = figuresAt(person.path, moment + 40), behind = figuresAt(person.path, moment - 40);
    const way = ahead && behind ? place(ahead).sub(place(behind)) : new THREE.Vector3();
    way.addScaledVector(away, -way.dot(away));
    if (way.lengthSq() < 1e-4) way.set(1, 0, 0).addScaledVector(away, -away.x);
    if (way.lengthSq() < 1e-4) way.set(0, 0, 1);
    const back = way.normalize().negate(), side = away.clone().cross(back);
    const feet = where.clone().addScaledVector(away, 0.15);
    if (other >= 0) feet.addScaledVector(side, 1.1);
    mesh.matrixAutoUpdate = false;
    mesh.matrix.makeBasis(side, away, back).setPosition(feet);
    this.people[i] = { at: where, head: feet.clone().addScaledVector(away, 2), away };

    const line = person.lines[indexAt(person.lines, one => one.at, moment)];
    const points = line ? line.grips.map(grip => this.stand(grip)) : [];
    if (line?.held && points.length > 0) points.push(feet.clone().addScaledVector(away, 0.95));
    tether.count = Math.max(0, points.length - 1);
    for (let k = 0; k + 1 < points.length; k++) tether.setMatrixAt(k, along(points[k]!, points[k + 1]!, 0.09));
    tether.instanceMatrix.needsUpdate = true;
  }

  private gear(moment: number): void {
    const hung = this.playback.people.map(() => 0), lain = new Map<string, number>(), none = new THREE.Matrix4().makeScale(0, 0, 0);
    this.playback.things.forEach((thing, i) => {
      const spot = thing.spots[indexAt(thing.spots, one => one.time, moment)], edge = Math.min(0.75, Math.max(0.28, thing.size));
      let at: THREE.Vector3 | null = null;
      if (spot?.person != null && this.people[spot.person]) {
        const shown = this.people[spot.person]!, k = hung[spot.person]!++;
        const side = new THREE.Vector3().setFromMatrixColumn(this.suits[spot.person]!.matrix, 0), back = new THREE.Vector3().setFromMatrixColumn(this.suits[spot.person]!.matrix, 2);
        at = shown.head.clone().addScaledVector(shown.away, -1.1).addScaledVector(side, hang[k % hang.length]![0]).addScaledVector(back, hang[k % hang.length]![1]);
      } else if (spot?.arm != null) at = this.tips[spot.arm]!.clone();
      else if (spot?.at) {
        at = place(spot.at);
        const key = spot.at.join(), k = lain.get(key) ?? 0, away = outward(this.playback.station.bodies, at);
        lain.set(key, k + 1);
        const side = Math.abs(away.y) > 0.9 ? new THREE.Vector3(1, 0, 0) : new THREE.Vector3(0, 1, 0);
        at.addScaledVector(away, 0.3).addScaledVector(side.cross(away).normalize(), 0.7 + 0.7 * k);
      }
      this.things[i] = at;
      this.boxes.setMatrixAt(i, at ? new THREE.Matrix4().compose(at, new THREE.Quaternion(), new THREE.Vector3(edge, edge, edge)) : none);
    });
    this.boxes.instanceMatrix.needsUpdate = true;
  }
}

/** What rails and tethers are drawn with: one long, one thick. */
const rod = (): THREE.BufferGeometry => new THREE.CylinderGeometry(0.5, 0.5, 1, 4, 1, true);

/** The glow of the Sun, drawn here so that no picture has to be fetched. */
function glow(): THREE.Texture {
  const size = 64, data = new Uint8Array(size * size * 4);
  for (let y = 0; y < size; y++) for (let x = 0; x < size; x++) {
    const far = Math.hypot(x - size / 2 + 0.5, y - size / 2 + 0.5) / (size / 2);
    data.set([255, 250, 235, Math.round(255 * Math.min(1, Math.max(0, far < 0.2 ? 1 : Math.pow(1 - far, 3) * 0.7)))], (y * size + x) * 4);
  }
  const texture = new THREE.DataTexture(data, size, size);
  texture.magFilter = texture.minFilter = THREE.LinearFilter;
  texture.needsUpdate = true;
  return texture;
}

/** A sky that is the same each time. The stars are not those of the real sky. */
function stars(): THREE.Points {
  let seed = 7;
  const next = () => (seed = (seed * 16807) % 2147483647) / 2147483647;
  const points: number[] = [];
  for (let i = 0; i < 500; i++) {
    const z = next() * 2 - 1, turn = next() * Math.PI * 2, across = Math.sqrt(1 - z * z);
    points.push(5000 * across * Math.cos(turn), 5000 * z, 5000 * across * Math.sin(turn));
  }
  const geometry = new THREE.BufferGeometry().setAttribute("position", new THREE.Float32BufferAttribute(points, 3));
  const points3d = new THREE.Points(geometry, new THREE.PointsMaterial({ color: 0x93a0b8, size: 1.4, sizeAttenuation: false, depthWrite: false }));
  points3d.renderOrder = 2;
  return points3d;
}

/** The Earth as a plain ball that fills the angle it has from here; so far off that nothing of a station reaches it. */
function earth([x, y, z, half]: number[]): THREE.Mesh {
  const geometry = new THREE.SphereGeometry(6000 * Math.sin(half! * Math.PI / 180), 40, 28);
  geometry.setAttribute("color", new THREE.BufferAttribute(new Float32Array(geometry.getAttribute("position").count * 3), 3));
  const mesh = new THREE.Mesh(geometry, new THREE.MeshBasicMaterial({ vertexColors: true }));
  mesh.position.copy(place([x!, y!, z!])).multiplyScalar(6000);
  // After all that may stand before it, so that no sample of it is drawn in vain.
  mesh.renderOrder = 1;
  return mesh;
}

/** Day on the side of the Earth that the Sun shines on: reckoned when the Sun has moved, so that drawing need not. */
function dayOn(mesh: THREE.Mesh, toward: THREE.Vector3): void {
  const normals = mesh.geometry.getAttribute("normal"), colours = mesh.geometry.getAttribute("color") as THREE.BufferAttribute;
  const day = new THREE.Color(0x3f74ad), night = new THREE.Color(0x071429), ink = new THREE.Color(), normal = new THREE.Vector3();
  for (let i = 0; i < colours.count; i++) {
    const high = normal.fromBufferAttribute(normals, i).dot(toward);
    ink.lerpColors(night, day, Math.min(1, Math.max(0, high * 1.6 + 0.12))).toArray(colours.array, i * 3);
  }
  colours.needsUpdate = true;
}
