// A page of one's own pictures, sizes and prices, from which buyers start.

import type { Desk } from "../generated/overmantel.js";
import { button, line } from "../page/controls.js";
import { known, make } from "../page/dom.js";
import { reason } from "../page/error.js";
import { pageWith } from "../page/source.js";
import type { Proposing } from "./proposal-form.js";

/** What the page does for it. */
export interface Studio extends Pick<Proposing, "save" | "say"> {
  /** The plan's pictures in their order, each as a JPEG in base64, or empty where it is not here. */
  filedPictures(): Promise<string[]>;
  /** The list of one's own stock, as a file. */
  stock(): string | undefined;
  /** The price book that is open, as a file. */
  book(): string | undefined;
}

/** Where the page is made. */
export class StudioForm {
  private readonly details = known<HTMLDetailsElement>("studio");
  private readonly title: HTMLInputElement;
  private readonly prices = make("input", { type: "checkbox" });
  private readonly priced = make("label", { class: "line" }, this.prices, " with my price book in it: every visitor can read all of it");
  private readonly inside = make("fieldset", {});
  private readonly stocked = make("p", {});
  /** Pictures that are not to go into it, by their names. */
  private readonly without = new Set<string>();

  constructor(
    private readonly desk: Desk,
    private readonly page: Studio,
  ) {
    const title = line("Title", "From the studio", "", "text");
    this.title = title.input;
    this.details.append(
      make("p", {}, "A copy of this page with your pictures instead of the examples: reduced, and without camera or location data. Put it on any web space. Buyers start from your first three."),
      this.inside,
      this.stocked,
      title.element,
      this.priced,
      button("Save the page as a file", () => void this.save()),
    );
    this.details.addEventListener("toggle", () => this.show());
  }

  /** Says what goes into it as things are now. */
  show(): void {
    if (!this.details.open) return;
    const names = this.desk.copies().filter(({ copy_width_px }) => copy_width_px > 0).map(({ name }) => name);
    const legend = names.length === 0 ? "This plan has no pictures yet. Choose some first" : "Pictures in it";
    this.inside.replaceChildren(make("legend", {}, legend), ...names.map((name) => this.choice(name)));
    this.stocked.textContent = this.page.stock() === undefined ? "It uses the stock on offer." : "It uses your own stock list.";
    this.priced.hidden = this.page.book() === undefined;
  }

  private choice(name: string): HTMLElement {
    const input = make("input", { type: "checkbox" });
    input.checked = !this.without.has(name);
    input.addEventListener("change", () => void (input.checked ? this.without.delete(name) : this.without.add(name)));
    return make("label", {}, input, " ", name);
  }

  private async save(): Promise<void> {
    try {
      const title = this.title.value.trim() || "From the studio";
      const book = this.prices.checked ? this.page.book() : undefined;
      const names = this.desk.copies().map(({ name }) => name);
      const pictures = (await this.page.filedPictures()).map((filed, index) => (this.without.has(names[index] ?? "") ? "" : filed));
      const blocks = this.desk.studio(title, pictures, this.page.stock(), book);
      this.page.save(`${title}.html`, await pageWith(title, blocks));
      this.page.say("The page is saved. Open it once yourself before you publish it.");
    } catch (error) {
      this.page.say(`The page was not saved: ${reason(error)}.`);
    }
  }
}
