// The head of the page: the plan's title, its units, and one step back or forward.

import { makeField, type Field, type Write } from "../field/field.js";
import { complaints } from "../field/sentence.js";
import type { Desk, View } from "../generated/overmantel.js";
import { known } from "./dom.js";

/** The head of the page. */
export class Header {
  private title: Field | undefined;

  constructor(
    private readonly desk: Desk,
    private readonly write: Write,
    /** The plan has changed. */
    private readonly changed: () => void,
  ) {
    known("undo").addEventListener("click", () => this.step(desk.undo()));
    known("redo").addEventListener("click", () => this.step(desk.redo()));
    known("units").addEventListener("change", (event) => this.chooseUnits(event));
    addEventListener("keydown", (event) => this.shortcut(event));
  }

  /** Shows it as the plan is now. */
  show(view: View): void {
    document.title = `${view.title} · Overmantel`;
    this.showTitle();
    known<HTMLButtonElement>("undo").disabled = !view.can_undo;
    known<HTMLButtonElement>("redo").disabled = !view.can_redo;
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

  private step(isDone: boolean): void {
    if (isDone) this.changed();
  }

  private chooseUnits(event: Event): void {
    const value = event.target instanceof HTMLInputElement ? event.target.value : "inches";
    const view = this.desk.view(undefined);
    const centimetres = value === "both" ? view.units === "centimetres" : value === "centimetres";
    if (centimetres === (view.units === "centimetres") && (value === "both") === view.both) return;
    this.desk.show_units(centimetres, value === "both");
    this.changed();
  }

  private shortcut(event: KeyboardEvent): void {
    const typing = event.target instanceof HTMLInputElement && event.target.type === "text";
    if (typing || !(event.ctrlKey || event.metaKey)) return;
    const key = event.key.toLowerCase();
    if (key === "z" || key === "y") {
      event.preventDefault();
      this.step(key === "y" || event.shiftKey ? this.desk.redo() : this.desk.undo());
    }
  }
}
