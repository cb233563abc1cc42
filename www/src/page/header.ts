// The head of the page: the plan's title, its units, and one step back or forward.

import { makeField, type Field, type Write } from "../field/field.js";
import { complaints } from "../field/sentence.js";
import type { Desk, View } from "../generated/overmantel.js";
import { known } from "./dom.js";

/** What the head of the page tells the page. */
export interface HeadTold {
  /** The plan has changed. */
  changed(): void;
  say(text: string): void;
}

/** The head of the page. */
export class Header {
  private title: Field | undefined;

  constructor(
    private readonly desk: Desk,
    private readonly write: Write,
    private readonly page: HeadTold,
  ) {
    known("undo").addEventListener("click", () => this.undo());
    known("redo").addEventListener("click", () => this.redo());
    known("units").addEventListener("change", (event) => this.chooseUnits(event));
  }

  /** Goes one step back, and says what that changed. */
  undo(): void {
    this.step(this.desk.undo(), "There is nothing to undo.");
  }

  /** Goes one step forward again. */
  redo(): void {
    this.step(this.desk.redo(), "There is nothing to redo.");
  }

  /** Shows it as the plan is now. */
  show(view: View): void {
    document.title = `${view.title} · Overmantel`;
    this.showTitle();
    // They keep the focus where there is no step left: a button that is disabled would lose it.
    known("undo").setAttribute("aria-disabled", String(!view.can_undo));
    known("redo").setAttribute("aria-disabled", String(!view.can_redo));
    const units = view.both ? "both" : view.units;
    const input = known("units").querySelector<HTMLInputElement>(`[value="${units}"]`);
    if (input) input.checked = true;
  }

  private showTitle(): void {
    const view = this.desk.field("title");
    if (!view) return;
    if (this.title) {
      this.title.update(view);
      return;
    }
    const { element, complain } = complaints();
    this.title = makeField(view, this.write, complain);
    known("title").append(this.title.element, element);
  }

  private step(said: string | undefined, nothing: string): void {
    if (said !== undefined) this.page.changed();
    this.page.say(said ?? nothing);
  }

  private chooseUnits(event: Event): void {
    const value = event.target instanceof HTMLInputElement ? event.target.value : "inches";
    const view = this.desk.view(undefined);
    const centimetres = value === "both" ? view.units === "centimetres" : value === "centimetres";
    if (centimetres === (view.units === "centimetres") && (value === "both") === view.both) return;
    this.desk.show_units(centimetres, value === "both");
    this.page.changed();
    this.page.say(value === "both" ? "Lengths in inches and centimetres." : `Lengths in ${value}.`);
  }
}
