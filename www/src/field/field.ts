// One field: what it says, set in type, and over it the control that takes the keys.

import { make } from "../page/dom.js";
import { drawnBoard } from "./board.js";
import type { FieldView, Outcome, SheetOptions } from "../generated/overmantel.js";

/** Takes a text for a field; says what is wrong, or nothing. */
export type Write = (field: string, text: string) => Outcome;

/** What the core knows of fields besides their values. */
export interface FieldService {
  /** The text of a field's next value, up or down, by a large step or a small one; none where it has none. */
  stepped(field: string, up: boolean, large: boolean): string | undefined;
  /** What a text comes to in a field, in both systems; none where it is no length and no size. */
  comes_to(field: string, text: string): string | undefined;
  /** Draws what an option of a field would make; false where there is nothing to see. */
  draw_option(context: CanvasRenderingContext2D, sheet: SheetOptions, field: string, option: string): boolean;
}

let fieldService: FieldService | undefined;

/** Tells all fields whom to ask. */
export function setFieldService(core: FieldService): void {
  fieldService = core;
}

/** Where a field's complaint is shown; nothing takes it away. */
export type Complain = (message: string | null) => void;

/** A field on the page. */
export interface Field {
  readonly element: HTMLElement;
  /** Shows another value of the same field. What is being typed is left alone. */
  update(view: FieldView): void;
}

/** Makes a field's control: a list where there is something to choose, otherwise a line to type in. */
export function makeField(view: FieldView, write: Write, complain: Complain): Field {
  if (view.kind === "colour") return coloured(view, write, complain);
  return view.kind === "choice" ? chosen(view, write, complain) : typed(view, write, complain);
}

let isPressed = false;
addEventListener("pointerdown", () => (isPressed = true), true);
for (const end of ["pointerup", "pointercancel"]) addEventListener(end, () => (isPressed = false), true);

/** Does something once no button or finger is down: what is being pressed must not move away under it. */
function whenReleased(act: () => void): void {
  if (isPressed) addEventListener("pointerup", () => setTimeout(act), { once: true });
  else act();
}

function frame(view: FieldView, said: HTMLElement, control: HTMLElement): HTMLElement {
  return make("span", { class: "field", "data-field": view.field, "data-kind": view.kind }, said, control);
}

/** How many lists of offers have been made: each has a name of its own. */
let made = 0;

function typed(first: FieldView, write: Write, complain: Complain): Field {
  let view = first;
  /** Whether something was typed that is not entered yet. */
  let dirty = false;
  const said = make("span", { "aria-hidden": "true" });
  const input = make("input", { type: "text", autocomplete: "off", spellcheck: "false", autocapitalize: "off" });
  const offered = make("datalist", { id: `offered-${++made}` });
  // While it is edited: what the text comes to in both systems, or what is wrong with it.
  const aside = make("small", { id: `aside-${made}`, class: "aside", hidden: true });
  const element = frame(view, said, input);
  element.append(aside);
  const isWrong = (): boolean => element.hasAttribute("data-wrong");

  const show = (): void => {
    said.textContent = isWrong() ? input.value : view.shown;
    said.classList.toggle("rounded", view.rounded && !isWrong());
    // What the stock has for it: any other can be typed as well.
    if (view.options.length > 0 && !offered.isConnected) {
      input.setAttribute("list", offered.id);
      element.append(offered);
    }
    input.setAttribute("aria-label", view.label);
    // The name is not said twice: a description has only what it lacks.
    input.title = [view.other, view.rounded ? "rounded" : ""].filter(Boolean).join(" · ");
    input.toggleAttribute("data-typed", dirty);
    if (!dirty && !isWrong() && input.value !== view.text) {
      input.value = view.text;
      if (document.activeElement === input) input.select();
    }
    if (element.classList.contains("editing") && !isWrong()) tell();
  };
  const tell = (wrong?: string): void => {
    // Of what was not typed only the other system is news.
    const text = wrong ?? (dirty ? fieldService?.comes_to(view.field, input.value) : view.other) ?? "";
    aside.textContent = text;
    aside.hidden = text === "";
    // Near the right edge it grows to the left.
    const [box, around] = [element, element.closest("section") ?? document.body].map((at) => at.getBoundingClientRect());
    element.classList.toggle("leftwards", box !== undefined && around !== undefined && box.left - around.left > around.right - box.right);
    if (text === "") input.removeAttribute("aria-describedby");
    else input.setAttribute("aria-describedby", aside.id);
  };
  const settle = (): void => {
    dirty = false;
    element.removeAttribute("data-wrong");
    input.removeAttribute("aria-invalid");
    complain(null);
    show();
  };
  const commit = (): void => {
    if (input.value === view.text) {
      settle();
      return;
    }
    const outcome = write(view.field, input.value);
    if (outcome.error === undefined) {
      settle();
      return;
    }
    element.setAttribute("data-wrong", "");
    input.setAttribute("aria-invalid", "true");
    show();
    tell(outcome.error);
    complain(outcome.error);
    const span = outcome.span;
    if (span && document.activeElement === input) input.setSelectionRange(span[0], span[1]);
  };

  /** Goes to the next value, where the field has one; a text that was typed is entered first. */
  const stepTo = (event: KeyboardEvent): void => {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    if (input.value !== view.text) commit();
    if (isWrong()) return;
    const next = fieldService?.stepped(view.field, event.key === "ArrowUp", event.shiftKey);
    if (next === undefined) return;
    event.preventDefault();
    dirty = false;
    complain(write(view.field, next).error ?? null);
    input.select();
  };

  input.addEventListener("input", () => {
    dirty = true;
    input.toggleAttribute("data-typed", true);
    tell();
  });
  input.addEventListener("focus", () => {
    offered.replaceChildren(...view.options.map((option) => make("option", { value: option.words })));
    element.classList.add("editing", "roomy-while-edited");
    if (!isWrong()) tell();
    input.select();
  });
  input.addEventListener("blur", () => {
    element.classList.remove("editing");
    whenReleased(() => element.classList.toggle("roomy-while-edited", element.classList.contains("editing")));
    // What is wrong stays tied to its field until it is mended.
    if (!isWrong()) {
      tell("");
      input.value = view.text;
    }
    dirty = false;
    input.toggleAttribute("data-typed", false);
  });
  input.addEventListener("change", commit);
  input.addEventListener("keydown", (event) => {
    if (event.key === "Enter") {
      commit();
      if (!isWrong()) input.select();
    } else if (event.key === "ArrowUp" || event.key === "ArrowDown") {
      stepTo(event);
    } else if (event.key === "Escape") {
      event.stopPropagation();
      input.value = view.text;
      settle();
      input.select();
    }
  });
  show();
  return {
    element,
    update(next) {
      view = next;
      show();
    },
  };
}

/** A colour: one of those that have a name, or any other by the system's picker or as #rrggbb. */
function coloured(first: FieldView, write: Write, complain: Complain): Field {
  let view = first;
  const named = chosen({ ...first, options: [...first.options, OTHER] }, (field, key) => (key === OTHER.key ? other() : write(field, key)), complain);
  // Keys come to any colour by "another colour" in the list.
  const picker = make("input", { type: "color", tabindex: "-1" });
  const typed = make("input", { type: "text", class: "hex", placeholder: "#rrggbb", size: "9", autocomplete: "off", spellcheck: "false", hidden: true });
  const element = make("span", { class: "coloured" }, named.element, typed, picker);
  /** Opens a line to type a colour in. */
  const other = (): Outcome => {
    typed.hidden = false;
    typed.value = held(view);
    setTimeout(() => typed.select());
    named.update({ ...view, options: [...view.options, OTHER] });
    return { error: undefined, span: undefined };
  };
  const show = (): void => {
    picker.value = held(view);
    picker.setAttribute("aria-label", `${view.label}: any colour`);
    typed.setAttribute("aria-label", `${view.label}, as #rrggbb`);
  };
  const commit = (): void => {
    if (typed.hidden) return;
    const { error } = write(view.field, typed.value);
    complain(error ?? null);
    typed.toggleAttribute("aria-invalid", error !== undefined);
    if (error === undefined) close();
  };
  const close = (): void => {
    typed.hidden = true;
    named.element.querySelector("select")?.focus();
  };
  picker.addEventListener("change", () => complain(write(view.field, picker.value).error ?? null));
  typed.addEventListener("change", commit);
  typed.addEventListener("keydown", (event) => {
    if (event.key === "Enter") commit();
    else if (event.key === "Escape") {
      event.stopPropagation();
      complain(null);
      close();
    }
  });
  show();
  return {
    element,
    update(next) {
      view = next;
      named.update({ ...next, options: [...next.options, OTHER] });
      show();
    },
  };
}

/** The option of a colour that has no name. */
const OTHER = { key: "other", words: "another colour…" };

/** The colour that holds, as #rrggbb. */
function held({ key, text }: FieldView): string {
  return key ?? text;
}

function chosen(first: FieldView, write: Write, complain: Complain): Field {
  let view = first;
  const said = make("span", { "aria-hidden": "true" });
  const select = make("select");
  const element = frame(view, said, select);

  const show = (): void => {
    said.textContent = view.shown;
    select.setAttribute("aria-label", view.label);
    // What holds may be none of the options: then it stands before them, and can't be chosen.
    const held = view.key === undefined ? [{ key: "", words: view.text }] : [];
    select.replaceChildren(...[...held, ...view.options].map(({ key, words }) => make("option", { value: key }, words)));
    select.value = view.key ?? "";
  };
  /** Chooses; the focus is on the control, whatever is rebuilt round it. */
  const choose = (key: string): void => {
    const outcome = write(view.field, key);
    complain(outcome.error ?? null);
    if (outcome.error !== undefined) select.value = view.key ?? "";
  };
  const board = view.drawn ? drawnBoard(element, () => view, choose, (...option) => fieldService?.draw_option(...option) ?? false) : undefined;
  // Keys open the list: on a closed one they would choose at every press.
  select.addEventListener("keydown", (event) => {
    const chooses = event.key.length === 1 ? event.key !== " " : /^(Arrow|Page|Home|End)/.test(event.key);
    if (board && (event.key === " " || event.key === "Enter" || /^Arrow/.test(event.key))) {
      event.preventDefault();
      board();
    } else if (chooses && !event.ctrlKey && !event.metaKey && typeof select.showPicker === "function") {
      event.preventDefault();
      select.showPicker();
    }
  });
  if (board) {
    select.addEventListener("mousedown", (event) => {
      event.preventDefault();
      select.focus();
      board();
    });
  }
  select.addEventListener("change", () => choose(select.value));
  show();
  return {
    element,
    update(next) {
      view = next;
      show();
    },
  };
}
