// The options of a proposal side by side: each drawn small, flat all at one scale or in the room, with its name, its price and what
// sets it apart. One of them is shown large.

import { sheetFor } from "../drawing/sheet.js";
import type { Desk, OfferView, QuoteView, SideRowView } from "../generated/overmantel.js";
import { make } from "../page/dom.js";
import { dark } from "../page/media.js";
import type { Core } from "../start/core.js";

/** What the sheet does for them. */
export interface Offering {
  /** The plan of an option as it is now. */
  plan(index: number): string;
  /** What it costs now. */
  total(index: number): QuoteView;
  /** What plans say of what a buyer weighs up. */
  rows(plans: string[]): SideRowView[];
  /** Puts the pictures of a plan on its desk. */
  furnish(desk: Desk): Promise<void>;
  /** Shows an option large. */
  take(index: number): void;
}

interface Card {
  input: HTMLInputElement;
  canvas: HTMLCanvasElement;
  total: HTMLElement;
  label: HTMLElement;
}

/** The cards; nothing where there is one option alone. */
export class OptionCards {
  readonly element: HTMLElement;
  private readonly cards: Card[];
  private readonly table = make("div", { class: "side" });
  private turn = 0;

  constructor(
    private readonly core: Core,
    private readonly options: OfferView[],
    private readonly sheet: Offering,
  ) {
    this.cards = options.map((option, index) => this.card(option, index));
    const details = make("details", {}, make("summary", {}, "Compare them in a table"), this.table);
    details.addEventListener("toggle", () => this.compare());
    this.element = make("div", { class: "options" });
    this.element.hidden = options.length < 2;
    this.element.append(make("fieldset", {}, make("legend", {}, "The options. The one you choose is shown large"), ...this.cards.map(({ label }) => label)), details);
    // What is new of a single option has no card to stand on.
    const news = options.length === 1 ? (options[0]?.news ?? []) : [];
    if (news.length > 0) {
      this.element.hidden = false;
      this.element.replaceChildren(...fresh(news));
    }
    dark.addEventListener("change", () => void this.draw());
  }

  /** Shows which is large, and what each costs now. */
  update(shown: number): void {
    for (const [index, { input, total }] of this.cards.entries()) {
      input.checked = index === shown;
      if (this.cards.length < 2) continue;
      const quote = this.sheet.total(index);
      total.textContent = quote.total === "" ? (quote.changes.length > 0 ? quote.said : "") : quote.total;
    }
    this.compare();
  }

  /** Draws each option as it is now. */
  async draw(): Promise<void> {
    if (this.cards.length < 2) return;
    const turn = ++this.turn;
    const plans = this.options.map((_, index) => this.sheet.plan(index));
    const oblique = document.querySelector<HTMLInputElement>('#view input[value="oblique"]')?.checked === true;
    for (const [index, { canvas }] of this.cards.entries()) {
      const desk = new this.core.Desk(plans[index] ?? "");
      try {
        await this.sheet.furnish(desk);
        const context = canvas.getContext("2d", { alpha: false });
        if (turn !== this.turn || !context || canvas.clientWidth < 1) return;
        desk.draw_beside(context, { ...sheetFor(canvas), oblique }, plans);
        canvas.setAttribute("aria-label", desk.in_words());
      } finally {
        desk.free();
      }
    }
    this.element.dataset["drawn"] = oblique ? "room" : "flat";
  }

  private card(option: OfferView, index: number): Card {
    const input = make("input", { type: "radio", name: "option", value: String(index), autocomplete: "off" });
    input.addEventListener("change", () => this.sheet.take(index));
    const canvas = make("canvas", { role: "img", "aria-label": option.name });
    const total = make("span", { class: "total" });
    const words = make("span", {}, make("strong", {}, option.name), " ", total, make("small", {}, option.apart));
    return { input, canvas, total, label: make("label", {}, input, canvas, words, ...fresh(option.news)) };
  }

  private compare(): void {
    const details = this.table.parentElement;
    if (!(details instanceof HTMLDetailsElement) || !details.open) return;
    const rows = this.sheet.rows(this.options.map((_, index) => this.sheet.plan(index)));
    const head = [make("td", {}), ...this.options.map(({ name }) => make("th", { scope: "col" }, name))];
    const lines = rows.map(({ label, told }) => make("tr", {}, make("th", { scope: "row" }, label), ...told.map((text) => make("td", {}, text))));
    const prices = this.cards.map(({ total }) => total.textContent ?? "");
    if (prices.some((price) => price !== "")) lines.push(make("tr", {}, make("th", { scope: "row" }, "Price"), ...prices.map((price) => make("td", {}, price))));
    this.table.replaceChildren(make("table", { class: "summed" }, make("thead", {}, make("tr", {}, ...head)), make("tbody", {}, ...lines)));
  }
}

/** What is new since the version before. */
function fresh(news: string[]): HTMLElement[] {
  return news.length === 0 ? [] : [make("span", { class: "news" }, make("em", {}, "New since the version before: "), news.map((line) => `${line}.`).join(" "))];
}
