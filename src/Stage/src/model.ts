import * as THREE from "three";
import { coloured } from "./geometry.js";

// A model of the station: a binary glTF 2.0 file that Desk has looked over, so that what is read here is there. Triangles in the plain colours of their
// materials; anything else was refused.

interface Node { mesh?: number; children?: number[]; matrix?: number[]; translation?: number[]; rotation?: number[]; scale?: number[] }
interface Primitive { attributes: Record<string, number>; indices?: number; material?: number }
interface Gltf {
  scene?: number; scenes: { nodes?: number[] }[]; nodes: Node[]; meshes: { primitives: Primitive[] }[];
  accessors: { bufferView: number; byteOffset?: number; componentType: number; count: number; type: string }[];
  bufferViews: { byteOffset?: number; byteStride?: number }[];
  materials?: { pbrMetallicRoughness?: { baseColorFactor?: number[] } }[];
}

/** Its y is up, its z forward and its -x starboard; here x is forward and z starboard. */
const turned = new THREE.Matrix4().set(0, 0, 1, 0, 0, 1, 0, 0, -1, 0, 0, 0, 0, 0, 0, 1);

export function model(base64: string): THREE.BufferGeometry[] {
  const bytes = Uint8Array.from(atob(base64), letter => letter.charCodeAt(0)), view = new DataView(bytes.buffer), length = view.getUint32(12, true);
  const gltf = JSON.parse(new TextDecoder().decode(bytes.subarray(20, 20 + length))) as Gltf, parts: THREE.BufferGeometry[] = [];

  const read = (index: number): number[] => {
    const accessor = gltf.accessors[index]!, window = gltf.bufferViews[accessor.bufferView]!, many = accessor.type === "VEC3" ? 3 : 1;
    const wide = accessor.componentType === 5121 ? 1 : accessor.componentType === 5123 ? 2 : 4, stride = window.byteStride ?? wide * many;
    const from = 28 + length + (window.byteOffset ?? 0) + (accessor.byteOffset ?? 0), figures: number[] = [];
    for (let i = 0; i < accessor.count; i++) for (let k = 0; k < many; k++) {
      const at = from + i * stride + k * wide;
      figures.push(accessor.componentType === 5126 ? view.getFloat32(at, true) : wide === 1 ? view.getUint8(at) : wide === 2 ? view.getUint16(at, true) : view.getUint32(at, true));
    }
    return figures;
  };

  const add = (index: number, above: THREE.Matrix4): void => {
    const node = gltf.nodes[index]!, here = new THREE.Matrix4();
    if (node.matrix) here.fromArray(node.matrix);
    else here.compose(new THREE.Vector3(...(node.translation ?? [0, 0, 0])), new THREE.Quaternion(...(node.rotation ?? [0, 0, 0, 1])), new THREE.Vector3(...(node.scale ?? [1, 1, 1])));
    here.premultiply(above);
    for (const primitive of node.mesh === undefined ? [] : gltf.meshes[node.mesh]!.primitives) {
      const geometry = new THREE.BufferGeometry(), points = read(primitive.attributes["POSITION"]!), factor = primitive.material === undefined ? undefined : gltf.materials![primitive.material]!.pbrMetallicRoughness?.baseColorFactor;
      geometry.setAttribute("position", new THREE.Float32BufferAttribute(points, 3));
      geometry.setIndex(primitive.indices === undefined ? points.filter((_, i) => i % 3 === 0).map((_, i) => i) : read(primitive.indices));
      if (primitive.attributes["NORMAL"] === undefined) geometry.computeVertexNormals();
      else geometry.setAttribute("normal", new THREE.Float32BufferAttribute(read(primitive.attributes["NORMAL"]), 3));
      const [red, green, blue] = factor ?? [0.78, 0.8, 0.82];
      // Factors are linear; colours go to the screen as they are.
      parts.push(coloured(geometry.applyMatrix4(here), new THREE.Color(Math.sqrt(red!), Math.sqrt(green!), Math.sqrt(blue!)).getHex()));
    }
    for (const child of node.children ?? []) add(child, here);
  };
  for (const top of gltf.scenes[gltf.scene ?? 0]!.nodes ?? []) add(top, turned);
  return parts;
}
