// The keys of the whole page, each in one list, which the page shows too.

import { known, make } from "./dom.js";

/** What the keys do. */
export interface Acts {
  undo(): void;
  redo(): void;
  save(): void;
  /** Removes what has been pressed on the drawing; whether there was anything. */
  remove(): boolean;
}

/** A key and what it is for. */
interface Key {
  keys: string;
  what: string;
  /** Whether an event is this key; none for a key that something else on the page takes. */
  is?: (event: KeyboardEvent) => boolean;
  act?: (acts: Acts) => boolean | void;
}

const control = (event: KeyboardEvent, key: string, shift = false): boolean =>
  (event.ctrlKey || event.metaKey) && !event.altKey && event.shiftKey === shift && event.key.toLowerCase() === key;

const KEYS: Key[] = [
  { keys: "Ctrl + Z", what: "undo; in a text that you are typing, undo there", is: (event) => control(event, "z"), act: (acts) => acts.undo() },
  { keys: "Ctrl + Shift + Z, Ctrl + Y", what: "redo", is: (event) => control(event, "z", true) || control(event, "y"), act: (acts) => acts.redo() },
  { keys: "Ctrl + S", what: "save the plan as a file", is: (event) => control(event, "s"), act: (acts) => acts.save() },
  { keys: "Ctrl + P", what: "print the proposal" },
  {
    keys: "Delete, Backspace",
    what: "remove what you have chosen on the drawing",
    is: (event) => (event.key === "Delete" || event.key === "Backspace") && !event.ctrlKey && !event.altKey && !event.metaKey,
    act: (acts) => acts.remove(),
  },
  { keys: "Tab", what: "go to the next control; the drawing counts as one, and so does a row of buttons or a list of headings" },
  { keys: "arrows, Home, End", what: "go among the things on the drawing, the buttons of a row, or the headings of a list" },
  { keys: "Enter", what: "on the drawing: pick up a thing, or change a measure; Enter again leaves it there" },
  { keys: "arrows, Shift + arrows", what: "move what you have picked up, by a small or a large step; in a field, go to the next value" },
  { keys: "arrows, Enter", what: "in your room: move the pieces; while you mark, move the cross and set a point" },
  { keys: "Esc", what: "cancel a move or an entry; leave the whole screen" },
  { keys: "+, -, 0", what: "on the drawing: zoom in, zoom out, the whole wall" },
  { keys: "?", what: "show this list", is: (event) => event.key === "?" && !event.ctrlKey && !event.metaKey, act: () => showKeys() },
];

/** Whether a text is being typed: then the keys of a text are the text's. */
function isTyping(target: EventTarget | null): boolean {
  if (target instanceof HTMLTextAreaElement) return true;
  if (!(target instanceof HTMLInputElement) || !["text", "search", "email", "url", "number", "date", ""].includes(target.type)) return false;
  // A field of the plan that was entered, or not touched, has nothing of its own to undo.
  return target.closest(".field") === null || target.dataset["typed"] !== undefined;
}

/** Whether a key would go into a text, typed yet or not. */
function goesIntoText(event: KeyboardEvent): boolean {
  const { target } = event;
  return target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement || (target instanceof HTMLInputElement && !["radio", "checkbox", "color", "file"].includes(target.type));
}

function showKeys(): void {
  const keys = known<HTMLDetailsElement>("keys");
  keys.open = true;
  keys.querySelector("summary")?.focus();
  keys.scrollIntoView({ block: "nearest" });
}

/** Lets the keys act, and shows their list. */
export function listenToKeys(acts: Acts): void {
  known("keys").append(make("dl", {}, ...KEYS.flatMap(({ keys, what }) => [make("dt", {}, keys), make("dd", {}, what)])));
  addEventListener("keydown", (event) => {
    const key = KEYS.find(({ is }) => is?.(event));
    if (key?.act === undefined || event.defaultPrevented) return;
    const isPlain = !event.ctrlKey && !event.metaKey;
    if (isPlain ? goesIntoText(event) : isTyping(event.target) && !control(event, "s")) return;
    if (key.act(acts) !== false) event.preventDefault();
  });
}
