// Making elements: text is only ever text.

type Attributes = Record<string, string | boolean | undefined>;

/** Makes an element with attributes and children. An attribute that is undefined or false is left out. */
export function make<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: (Node | string)[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === true) element.setAttribute(name, "");
    else if (value !== undefined && value !== false) element.setAttribute(name, value);
  }
  element.append(...children);
  return element;
}

/** The element with this id; the page's own markup has it. */
export function known<T extends HTMLElement = HTMLElement>(id: string): T {
  const element = document.getElementById(id);
  if (!element) throw new Error(`The page has no ${id}.`);
  return element as T;
}
