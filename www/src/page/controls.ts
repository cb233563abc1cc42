// Controls that stand outside sentences: buttons and labelled lines of text.

import { make } from "./dom.js";

/** A button with these words. */
export function button(words: string, act: () => void, attributes: Record<string, string> = {}): HTMLButtonElement {
  const made = make("button", { type: "button", ...attributes }, words);
  made.addEventListener("click", act);
  return made;
}

/** A labelled line of text. */
export function line(label: string, value: string, placeholder: string, type: string): { element: HTMLElement; input: HTMLInputElement } {
  const input = make("input", { type, placeholder, autocomplete: "off", spellcheck: "false" });
  input.value = value;
  return { element: make("label", { class: "line" }, make("span", {}, label), input), input };
}

/** A labelled field for several lines of text. */
export function area(label: string): { element: HTMLElement; input: HTMLTextAreaElement } {
  const input = make("textarea", { rows: "3" });
  return { element: make("label", { class: "line" }, make("span", {}, label), input), input };
}

/** Puts a text on the clipboard and says so. */
export function copyText(text: string, done: string, say: (text: string) => void): void {
  navigator.clipboard.writeText(text).then(
    () => say(done),
    () => say("This browser blocks the clipboard here. Copy it by hand."),
  );
}
