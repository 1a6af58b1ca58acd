// The chart as the desk draws it, kept on the page from one answer to the next: only the parts whose text changed are made anew.

export class Picture {
  readonly svg: SVGSVGElement;
  private parts: { text: string; node: Element }[];
  private head: string;

  constructor(text: string) {
    this.svg = parse(text);
    this.svg.setAttribute("aria-hidden", "false");
    const [head, ...parts] = split(text), nodes = [...this.svg.children];
    this.head = head;
    // Where it is not written as expected nothing is kept.
    this.parts = parts.length === nodes.length ? parts.map((part, i) => ({ text: part, node: nodes[i]! })) : [];
  }

  /** Makes it another picture; false, and nothing done, where none of it can stay. */
  patch(text: string): boolean {
    const [head, ...parts] = split(text);
    if (this.parts.length === 0 || head !== this.head) return false;
    const kept = new Map<string, Element[]>();
    for (const { text: part, node } of this.parts) kept.set(part, [...kept.get(part) ?? [], node]);
    const found = parts.map(part => kept.get(part)?.shift() ?? null), fresh = parts.filter((_, i) => found[i] === null);
    const made = [...parse(`${head}\n ${fresh.join("\n ")}\n</svg>`).children];
    if (made.length !== fresh.length) return false;
    this.parts = parts.map((part, i) => ({ text: part, node: found[i] ?? made.shift()! }));
    arrange(this.svg, this.parts.map(part => part.node));
    return true;
  }
}

/** Makes nodes the children of a node, in this order, and moves few; what has the focus stays where it is, for taken out it would lose it. */
export function arrange(parent: Element, nodes: readonly Element[]): void {
  const wanted = new Set(nodes);
  for (const child of [...parent.children]) if (!wanted.has(child)) child.remove();
  let at = parent.firstElementChild;
  for (const node of nodes) {
    if (node === document.activeElement) for (let next; at !== node; at = next) {
      next = at!.nextElementSibling;
      parent.append(at!);
    }
    if (node === at) at = at.nextElementSibling;
    else parent.insertBefore(node, at);
  }
}

/** Sets what is not so yet. */
export function set(node: Element, attributes: Record<string, string>): void {
  for (const [name, value] of Object.entries(attributes)) if (node.getAttribute(name) !== value) node.setAttribute(name, value);
}

// As a part of a page, which takes a quarter of the time that a document of its own does.
function parse(text: string): SVGSVGElement {
  const made = document.createElement("template");
  made.innerHTML = text;
  return document.adoptNode(made.content.firstElementChild as SVGSVGElement);
}

/** The opening tag, and each part of a picture: it is written with a part a line, what is in it further in, and no text holds a tag. */
function split(text: string): [string, ...string[]] {
  return text.slice(0, text.lastIndexOf("</svg>")).trimEnd().split(/\n (?=<[^/])/) as [string, ...string[]];
}
