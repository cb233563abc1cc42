// Lists that are worked out only while they are open: parts and cuts, and the sizes that suit a picture.

import type { ListView } from "../generated/overmantel.js";
import { known, make } from "../page/dom.js";

/** Takes a row of a list into the plan: writes a text to a field. */
export type Take = (field: string, text: string) => void;

function table(list: ListView, take: Take): HTMLElement {
  const first = (text: string, rest: string[], offer: [string, string] | undefined): HTMLElement => {
    if (!offer) return make("th", { scope: "row", role: "rowheader" }, text);
    const button = make("button", { type: "button", class: "offer", "aria-label": `Take ${[text, ...rest].join(", ")}` }, text);
    button.addEventListener("click", () => take(...offer));
    return make("th", { scope: "row", role: "rowheader" }, button);
  };
  const cell = (text: string, column: string | undefined): HTMLElement =>
    make("td", { role: "cell", "data-column": column, class: text === "" ? "empty" : undefined }, text);
  // On a phone the rows are set as lines of text: the roles are said, so that it stays a table for those who listen.
  const notes = [...list.notes, ...list.as_written].map((note) => make("p", {}, make("small", {}, note)));
  if (list.columns.length === 0) return make("div", { class: "list" }, ...notes);
  return make(
    "div",
    { class: "list" },
    make(
      "table",
      { role: "table" },
      make("caption", {}, list.caption),
      make(
        "thead",
        { role: "rowgroup" },
        make("tr", { role: "row" }, ...list.columns.map((column) => make("th", { scope: "col", role: "columnheader" }, column))),
      ),
      make(
        "tbody",
        { role: "rowgroup" },
        ...list.rows.map(({ cells: [name = "", ...rest], offer }) =>
          make("tr", { role: "row" }, first(name, rest, offer), ...rest.map((text, index) => cell(text, list.columns[index + 1]))),
        ),
      ),
    ),
    ...notes,
  );
}

/** A part of the page that can be opened, with its lists. */
export class Lists {
  private readonly details: HTMLDetailsElement;
  private readonly place: HTMLElement;

  constructor(
    id: string,
    /** Works the lists out. */
    private readonly read: () => ListView[],
    private readonly take: Take,
  ) {
    this.details = known<HTMLDetailsElement>(id);
    this.place = this.details.querySelector("div") ?? this.details;
    this.details.addEventListener("toggle", () => this.show());
  }

  /** Shows the lists as they are now, if they are open. */
  show(): void {
    if (!this.details.open) return;
    const had = this.place.contains(document.activeElement);
    this.place.replaceChildren(...this.read().map((list) => table(list, this.take)));
    if (had) this.details.querySelector("summary")?.focus({ preventScroll: true });
  }
}
