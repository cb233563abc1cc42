// Plans side by side: each drawn small by the core, all at one scale, with what they come to in a few lines and, below, everything that differs.

import { sheetFor } from "../drawing/sheet.js";
import type { BesideView, Desk, SummaryView } from "../generated/overmantel.js";
import { known, make } from "../page/dom.js";
import { reason } from "../page/error.js";
import { dark } from "../page/media.js";
import type { Core } from "../start/core.js";
import { capital } from "../state.js";

/** A plan to be seen beside others. */
export interface Compared {
  title: string;
  text: string;
}

/** What the page does for it. */
export interface Comparing {
  /** The plan at work, as a file. */
  text(): string;
  /** What the plan at work can stand beside, the likeliest first. */
  beside(): BesideView[];
  /** Two plans in a few lines. */
  summary(one: string, other: string): SummaryView;
  /** What a plan says that another does not, in words. */
  differences(one: string, other: string): string[];
  /** Puts the pictures of a plan on its desk. */
  furnish(desk: Desk): Promise<void>;
}

/** Shows plans side by side. */
export class SideBySide {
  private readonly place = known("compared");
  private readonly details = known<HTMLDetailsElement>("comparing");
  private readonly against = known("against");
  private readonly select = this.against.querySelector("select") ?? make("select");
  private plans: Compared[] = [];
  /** Whether the plans are the one at work and what was chosen to stand beside it. */
  private isOwn = true;
  /** What was chosen to stand beside it, until the page is closed. */
  private chosen: BesideView | undefined;
  private offered: BesideView[] = [];
  /** Which showing is the last: one that was overtaken is dropped. */
  private turn = 0;

  constructor(
    private readonly core: Core,
    private readonly page: Comparing,
  ) {
    dark.addEventListener("change", () => void this.draw());
    known("compare").addEventListener("click", () => {
      this.isOwn = true;
      this.details.open = true;
      this.update();
      this.details.scrollIntoView({ block: "start" });
      this.details.querySelector("summary")?.focus({ preventScroll: true });
    });
    this.details.addEventListener("toggle", () => this.update());
    this.select.addEventListener("change", () => {
      this.chosen = this.offered[this.select.selectedIndex];
      this.update();
    });
  }

  /** Shows two or three plans, or the plan at work beside another for fewer. */
  show(plans: Compared[]): void {
    const wasOwn = this.isOwn;
    this.isOwn = plans.length < 2;
    if (this.isOwn) {
      if (!wasOwn) this.details.open = false;
      this.update();
    } else {
      this.details.open = true;
      this.set(plans);
    }
    this.against.hidden = !this.isOwn;
  }

  /** Shows the plan as it is now beside what was chosen, where it is open. */
  update(): void {
    if (!this.isOwn) return;
    this.against.hidden = false;
    if (!this.details.open) {
      this.set([]);
      return;
    }
    const { chosen } = this;
    const fresh = this.page.beside();
    // What was chosen stays what it was, however the plan at work goes on.
    this.offered = chosen && !fresh.some(({ plan }) => plan === chosen.plan) ? [chosen, ...fresh] : fresh;
    const now = chosen ?? this.offered[0];
    this.select.replaceChildren(...this.offered.map(({ words }, index) => make("option", { value: String(index) }, words)));
    this.select.selectedIndex = Math.max(0, this.offered.findIndex(({ plan }) => plan === now?.plan));
    const own = { title: "This plan", text: this.page.text() };
    const other = now && { title: capital(now.words), text: now.plan };
    // What was stands before what is, and what could be after it.
    this.set(other === undefined ? [] : now?.is_before === true ? [other, own] : [own, other]);
  }

  private set(plans: Compared[]): void {
    if (JSON.stringify(plans) === JSON.stringify(this.plans)) return;
    this.plans = plans;
    void this.draw();
  }

  private async draw(): Promise<void> {
    const turn = ++this.turn;
    const [first, ...others] = this.plans;
    this.place.hidden = first === undefined;
    if (first === undefined) {
      this.place.replaceChildren();
      return;
    }
    const figures = this.plans.map(({ title }) => {
      const canvas = make("canvas", { role: "img", "aria-label": title });
      return { canvas, figure: make("figure", {}, canvas, make("figcaption", {}, title)) };
    });
    const lists = others.map((other) => this.list(first, other));
    this.place.replaceChildren(make("div", {}, ...figures.map(({ figure }) => figure)), ...lists.flat());
    for (const [index, { text, title }] of this.plans.entries()) {
      const canvas = figures[index]?.canvas;
      if (canvas) await this.paint(canvas, title, text, () => turn === this.turn);
      if (turn !== this.turn) return;
    }
    this.place.dataset["drawn"] = String(this.plans.length);
  }

  private list(first: Compared, other: Compared): Node[] {
    try {
      const rows = this.page.differences(first.text, other.text);
      const summary = this.page.summary(first.text, other.text);
      const all = rows.length === 0 ? make("p", {}, "Only the title differs.") : make("ul", {}, ...rows.map((row) => make("li", {}, `${row}.`)));
      const heading = `Everything that differs: ${rows.length}`;
      return [summed(summary, first.title, other.title), make("details", {}, make("summary", {}, heading), all)];
    } catch (error) {
      return [make("p", {}, `They can't be compared: ${reason(error)}.`)];
    }
  }

  /** Draws a plan on a desk of its own, so that its pictures are not mixed up with those of another. */
  private async paint(canvas: HTMLCanvasElement, title: string, text: string, isWanted: () => boolean): Promise<void> {
    let desk: Desk;
    try {
      desk = new this.core.Desk(text);
    } catch {
      // The list says why.
      canvas.hidden = true;
      return;
    }
    try {
      await this.page.furnish(desk);
      const context = canvas.getContext("2d", { alpha: false });
      if (!context || !isWanted() || canvas.clientWidth < 1) return;
      desk.draw_beside(context, sheetFor(canvas), this.plans.map((plan) => plan.text));
      canvas.setAttribute("aria-label", `${title}. ${desk.in_words()}`);
    } finally {
      desk.free();
    }
  }
}

/** Two plans in a few lines, as a table. */
function summed({ rows }: SummaryView, one: string, other: string): HTMLElement {
  const head = [make("td", {}), ...[one, other].map((words) => make("th", { scope: "col" }, words))];
  const lines = rows.map((row) =>
    make("tr", { class: row.is_same ? "same" : undefined }, make("th", { scope: "row" }, row.label), make("td", {}, row.one), make("td", {}, row.other)),
  );
  return make("table", { class: "summed" }, make("thead", {}, make("tr", {}, ...head)), make("tbody", {}, ...lines));
}
