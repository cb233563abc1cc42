// Plans side by side: each drawn small by the core, all at one scale, and below them in words what became of the first in each of the others.

import { sheetFor } from "../drawing/sheet.js";
import type { Desk } from "../generated/overmantel.js";
import { known, make } from "../page/dom.js";
import { reason } from "../page/error.js";
import { dark } from "../page/media.js";
import type { Core } from "../start/core.js";

/** A plan to be seen beside others. */
export interface Compared {
  title: string;
  text: string;
}

/** What the page does for it. */
export interface Comparing {
  /** What a plan says that another does not, in words. */
  differences(one: string, other: string): string[];
  /** Puts the pictures of a plan on its desk. */
  furnish(desk: Desk): Promise<void>;
}

/** Shows plans side by side. */
export class SideBySide {
  private readonly place = known("compared");
  private plans: Compared[] = [];
  /** Which showing is the last: one that was overtaken is given up. */
  private turn = 0;

  constructor(
    private readonly core: Core,
    private readonly page: Comparing,
  ) {
    dark.addEventListener("change", () => void this.draw());
  }

  /** Shows two or three plans, or nothing for fewer. */
  show(plans: Compared[]): void {
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
    this.place.replaceChildren(make("h3", {}, "Side by side"), make("div", {}, ...figures.map(({ figure }) => figure)), ...lists.flat());
    for (const [index, { text, title }] of this.plans.entries()) {
      const canvas = figures[index]?.canvas;
      if (canvas) await this.paint(canvas, title, text, () => turn === this.turn);
      if (turn !== this.turn) return;
    }
    this.place.dataset["drawn"] = String(this.plans.length);
  }

  private list(first: Compared, other: Compared): Node[] {
    const heading = make("h4", {}, `From ${first.title} to ${other.title}`);
    try {
      const rows = this.page.differences(first.text, other.text);
      if (rows.length === 0) return [heading, make("p", {}, "Nothing differs but the title.")];
      return [heading, make("ul", {}, ...rows.map((row) => make("li", {}, `${row}.`)))];
    } catch (error) {
      return [heading, make("p", {}, `They can't be compared: ${reason(error)}.`)];
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
