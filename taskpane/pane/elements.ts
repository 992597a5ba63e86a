/** The element that a page was made with. */
export function found<T extends Element>(
  selector: string,
  kind: new () => T,
  within: ParentNode = document,
): T {
  const element = within.querySelector(selector);
  if (!(element instanceof kind)) throw new Error(`this page has no ${selector}`);
  return element;
}

/** Makes a page element with its attributes and children. */
export function element<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Record<string, string | boolean> = {},
  ...children: (Node | string)[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === true) made.setAttribute(name, "");
    else if (value !== false) made.setAttribute(name, value);
  }
  made.append(...children);
  return made;
}
