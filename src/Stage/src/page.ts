// Makes elements. Text is only ever set as text: nothing from a plan can become markup.

type Attributes = Record<string, string | boolean>;

export function element<K extends keyof HTMLElementTagNameMap>(tag: K, attributes: Attributes = {}, ...children: (Node | string)[]): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === true) made.setAttribute(name, "");
    else if (value !== false) made.setAttribute(name, value);
  }
  made.append(...children);
  return made;
}

export function setText(node: Element, text: string): void {
  if (node.textContent !== text) node.textContent = text;
}

export type Say = (key: string, ...fill: string[]) => string;

/** The words of the page, their gaps filled in order. */
export function sayer(words: Record<string, string>): Say {
  return (key, ...fill) => (words[key] ?? key).replace(/\{(\d+)\}/g, (whole, gap: string) => fill[Number(gap)] ?? whole);
}
