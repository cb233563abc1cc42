// The list of one's own stock: used in place of the stock on offer, kept, saved and put aside.

import type { Desk } from "../generated/overmantel.js";
import { keepStock, keptStock } from "../kept/local.js";
import { refusal } from "../kept/refusal.js";
import { known } from "../page/dom.js";
import { save } from "../page/file.js";
import { inShort } from "../page/saying.js";
import { ofStudio } from "../page/source.js";
import type { PageState } from "../state.js";

/** What the page does for it. */
export interface Stocking {
  /** The plan is weighed against another stock. */
  changed(): void;
  /** Something to say in the line below the drawing. */
  say(text: string): void;
}

/** The list to begin with: one's own, or that of the studio whose page this is. */
export function stockToBeginWith(): string | undefined {
  return keptStock() ?? ofStudio("stock");
}

/** Opens and closes lists of stock. */
export class OwnStock {
  constructor(
    private readonly desk: Desk,
    private readonly state: PageState,
    private readonly page: Stocking,
  ) {
    known("open-stock").addEventListener("click", () => known("stock").click());
    known("drop-stock").hidden = keptStock() === null;
    known("drop-stock").addEventListener("click", () => this.drop());
    known("save-stock").addEventListener("click", () => save("stock.json", desk.stock_file()));
  }

  /** Takes a list of the user's own over the stock on offer, and keeps it. */
  async open(file: File | undefined): Promise<void> {
    if (!file) return;
    const text = await file.slice(0, 8 << 20).text();
    const { error } = this.desk.open_stock(text);
    if (error !== undefined) {
      this.page.say(`${inShort(file.name)} can't be used: ${error}`);
      return;
    }
    this.state.change({ kind: "stocked", stock: text });
    this.page.changed();
    known("drop-stock").hidden = false;
    this.page.say(keepStock(text) ? `The list ${inShort(file.name)} is in use.` : `The list ${inShort(file.name)} is in use, but not kept: ${refusal()}.`);
  }

  /** Goes back to the stock on offer. */
  private drop(): void {
    this.desk.open_stock('{ "overmantel_stock": 1 }');
    keepStock(null);
    this.state.change({ kind: "stocked", stock: undefined });
    known("drop-stock").hidden = true;
    this.page.changed();
    this.page.say("The stock on offer is in use again.");
  }
}
