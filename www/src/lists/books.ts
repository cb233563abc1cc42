// Price books: the maker's own prices, opened from a file and kept on this machine, or the example's.

import type { Desk, ExtraView } from "../generated/overmantel.js";
import { keepBook, keptBook } from "../kept/local.js";
import { refusal } from "../kept/refusal.js";
import { known, make } from "../page/dom.js";
import { inShort } from "../page/saying.js";
import { ofStudio } from "../page/source.js";
import { demoBook } from "../start/demo.js";

/** What the page does with them. */
export interface Pricing {
  /** The prices are other ones. */
  priced(): void;
  say(text: string): void;
}

/** Opens and closes price books. */
export class Books {
  /** The one that is open, as a file. */
  text: string | undefined;
  private readonly extras = make("fieldset", {});

  constructor(
    private readonly desk: Desk,
    private readonly page: Pricing,
  ) {
    const input = known<HTMLInputElement>("book");
    input.addEventListener("change", () => {
      const file = input.files?.[0];
      if (file) void file.slice(0, 2 << 20).text().then((text) => this.open(text, file.name));
      input.value = "";
    });
    known("open-book").addEventListener("click", () => input.click());
    known("example-book").addEventListener("click", () => this.open(demoBook() ?? "", "The example"));
    known("close-book").addEventListener("click", () => {
      this.open("", "");
      this.page.say("The price book is closed; there are no prices.");
    });
    known("example-book").hidden = demoBook() === undefined;
    // One's own, or that of the studio whose page this is.
    const kept = keptBook() ?? ofStudio("prices");
    if (kept !== undefined && desk.open_book(kept).error === undefined) this.text = kept;
    else if (kept !== undefined) this.page.say("The price book kept from last time can't be read; open it again.");
    known("close-book").hidden = this.text === undefined;
    known("open-book").parentElement?.before(this.extras);
  }

  /** Shows what may be asked for besides: extras, ways of shipping, discounts. */
  show(): void {
    const extras = this.desk.extras();
    this.extras.hidden = extras.length === 0;
    const had = this.extras.querySelector<HTMLInputElement>("input:focus")?.value;
    this.extras.replaceChildren(make("legend", {}, "Extras"), ...extras.map((extra) => this.box(extra)));
    if (had !== undefined) [...this.extras.querySelectorAll("input")].find((input) => input.value === had)?.focus();
  }

  private box({ name, words, is_asked }: ExtraView): HTMLElement {
    const input = make("input", { type: "checkbox", value: name });
    input.checked = is_asked;
    input.addEventListener("change", () => {
      this.desk.ask_for(name, input.checked);
      this.page.priced();
    });
    return make("label", {}, input, " ", words);
  }

  private open(text: string, name: string): void {
    const { error } = this.desk.open_book(text);
    if (error !== undefined) {
      this.page.say(`${inShort(name)} can't be used: ${error}`);
      return;
    }
    this.text = text === "" ? undefined : text;
    const isKept = keepBook(text === "" ? null : text);
    known("close-book").hidden = text === "";
    this.page.priced();
    this.page.say(isKept ? `${inShort(name)} is in use.` : `${inShort(name)} is in use, but not kept: ${refusal()}.`);
  }
}
