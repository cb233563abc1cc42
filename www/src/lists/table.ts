// The sizes of the chosen piece, in both systems.

import type { RowView } from "../generated/overmantel.js";
import { make } from "../page/dom.js";

/** Shows the table of sizes. */
export function showTable(place: HTMLElement, caption: string, rows: RowView[]): void {
  const cell = (text: string, rounded: boolean): HTMLElement => make("td", { class: rounded ? "rounded" : undefined }, text);
  place.replaceChildren(
    make(
      "table",
      {},
      make("caption", {}, caption),
      make("thead", {}, make("tr", {}, make("th", { scope: "col" }, "Size"), make("th", { scope: "col" }, "inches"), make("th", { scope: "col" }, "cm"))),
      make(
        "tbody",
        {},
        ...rows.map((row) =>
          make(
            "tr",
            {},
            make("th", { scope: "row" }, row.term, " ", make("small", {}, row.meaning)),
            cell(row.inches, row.inches_rounded),
            cell(row.centimetres, row.centimetres_rounded),
          ),
        ),
      ),
    ),
    make("p", { class: "rounded" }, make("small", {}, "Figures in italics are rounded: inches to ¹⁄₁₆, centimetres to 1 mm.")),
  );
}
