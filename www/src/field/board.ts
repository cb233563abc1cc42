// The options of a choice as a board of small drawings.

import { make } from "../page/dom.js";
import { Thumbnails } from "../drawing/thumbnails.js";
import type { FieldView, SheetOptions } from "../generated/overmantel.js";

/** Opens and closes a board of small drawings below the paragraph of a field: one of them is chosen, or none. */
export function drawnBoard(
  element: HTMLElement,
  view: () => FieldView,
  choose: (key: string) => void,
  draw: (context: CanvasRenderingContext2D, sheet: SheetOptions, field: string, option: string) => boolean,
): () => void {
  let board: HTMLElement | undefined;
  const control = element.querySelector<HTMLSelectElement>("select");
  control?.setAttribute("aria-expanded", "false");
  const close = (refocus: boolean): void => {
    board?.remove();
    board = undefined;
    control?.setAttribute("aria-expanded", "false");
    if (refocus) control?.focus();
  };
  return () => {
    if (board) {
      close(true);
      return;
    }
    const { field, label, options, key: held } = view();
    const thumbnails = new Thumbnails(
      (context, sheet, option) => draw(context, sheet, field, option),
      ({ code }) => {
        close(true);
        choose(code);
      },
    );
    const opened = make("div", { class: "board", role: "group", "aria-label": label }, thumbnails.element);
    board = opened;
    (element.closest("p") ?? element).after(opened);
    control?.setAttribute("aria-expanded", "true");
    thumbnails.show(options.map(({ key, words }) => ({ code: key, words, holds: key === held })));
    const buttons = [...opened.querySelectorAll("button")];
    (opened.querySelector<HTMLElement>('[aria-pressed="true"]') ?? buttons[0])?.focus();
    opened.addEventListener("keydown", (event) => {
      const by = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[event.key];
      const at = buttons.findIndex((button) => button === document.activeElement);
      if (event.key === "Escape") close(true);
      else if (by !== undefined) buttons[(at + by + buttons.length) % buttons.length]?.focus();
      else return;
      event.preventDefault();
      event.stopPropagation();
    });
    opened.addEventListener("focusout", (event) => {
      if (event.relatedTarget !== null && event.relatedTarget !== control && !opened.contains(event.relatedTarget as Node)) close(false);
    });
  };
}
