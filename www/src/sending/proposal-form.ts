// A proposal as it is made by the one who sends it: what is said of it, and the file.

import type { Desk } from "../generated/overmantel.js";
import { area, button, line } from "../page/controls.js";
import { known, make } from "../page/dom.js";
import { reason } from "../page/error.js";
import { pageWith } from "../page/source.js";
import { pageAddress } from "./address.js";

/** What the page does for it. */
export interface Proposing {
  /** The plan as a file with its pictures, reduced for sending. */
  fullPlan(): Promise<string>;
  /** Hands a file out. */
  save(name: string, content: Blob): void;
  /** Something to say in the line below the drawing. */
  say(text: string): void;
  /** What is said of a proposal is another. */
  stated(): void;
}

/** What is said of a proposal besides the plan; its papers say the same. */
export interface Stated {
  title: string;
  from: string;
  note: string;
  valid_until: string;
  /** The lines of its price, where they are others than the price book makes. */
  prices: string[] | undefined;
}

/** Where a proposal is made. */
export class ProposalForm {
  private readonly details = known<HTMLDetailsElement>("propose");
  private readonly title: HTMLInputElement;
  private readonly from: HTMLInputElement;
  private readonly until: HTMLInputElement;
  private readonly note = area("Your message");
  /** What was filled in as title and as prices last. */
  private titled = "";
  private filled = "";
  private readonly unpriced = make("p", { class: "note" });
  private readonly prices = area("Prices, one per line, such as: three prints, framed, 640 EUR. An open price book fills them in");

  constructor(
    private readonly desk: Desk,
    private readonly page: Proposing,
  ) {
    const title = line("Title", "", "", "text");
    const from = line("From", "", "your name", "text");
    const until = line("Valid until", "", "", "date");
    [this.title, this.from, this.until] = [title.input, from.input, until.input];
    this.details.append(
      make("p", {}, "One file with the plan, its pictures (reduced, without camera or location data), your prices and a message. It opens in any browser. Your buyer can change it and answer."),
      title.element,
      from.element,
      until.element,
      this.note.element,
      this.prices.element,
      this.unpriced,
      button("Save the proposal as a file", () => void this.save()),
    );
    this.details.addEventListener("change", () => page.stated());
    this.details.addEventListener("toggle", () => this.show());
    this.show();
  }

  /** Fills in the plan's title, and what it costs by the price book that is open; what was written there stays. */
  show(): void {
    if (this.title.value === this.titled) this.titled = this.title.value = this.desk.view(undefined).title;
    if (!this.details.open) return;
    const { input } = this.prices;
    const why = this.desk.no_total();
    this.unpriced.textContent = why ?? "";
    this.unpriced.hidden = why === undefined;
    if (input.value !== this.filled) return;
    this.filled = this.desk.price_lines().join("\n");
    input.value = this.filled;
    input.rows = Math.max(3, Math.min(12, this.filled.split("\n").length));
  }

  /** Another plan is at work: title and prices that were written for the one before are not for this one. */
  another(): void {
    this.titled = this.title.value = "";
    this.filled = this.prices.input.value = "";
    this.show();
  }

  /** What is said of it. */
  stated(): Stated {
    const { value } = this.prices.input;
    return {
      title: this.title.value.trim() || this.desk.view(undefined).title,
      from: this.from.value.trim(),
      note: this.note.input.value.trim(),
      valid_until: this.until.value,
      prices: value === this.filled ? undefined : value.split("\n").filter((line) => line.trim() !== ""),
    };
  }

  /** Opens it, to be filled in. */
  open(): void {
    this.details.open = true;
    this.from.focus();
  }

  private async save(): Promise<void> {
    try {
      const { title, from, note, valid_until } = this.stated();
      const data = this.desk.proposal({
        title,
        from,
        note,
        valid_until,
        address: pageAddress(),
        prices: this.prices.input.value.split("\n"),
        plan: await this.page.fullPlan(),
      });
      this.page.save(`${title}.html`, pageWith(title, data));
      this.page.say("The proposal is saved. Open it once yourself before you send it.");
    } catch (error) {
      this.page.say(`The proposal was not saved: ${reason(error)}.`);
    }
  }
}
