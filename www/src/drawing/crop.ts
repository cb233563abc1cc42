// The crop: whether a drag moves the pieces or the picture inside its opening, and the same by fields.

import { known } from "../page/dom.js";
import { makeField, type Complain, type Field, type Write } from "../field/field.js";
import type { FieldView } from "../generated/overmantel.js";

/** Reads a field; none where the plan has no such field. */
export type Read = (field: string) => FieldView | undefined;

/** The choice of what a drag moves, with the fields of the crop. */
export class Crop {
  private readonly choice = known("drags");
  private readonly line = known("crop");
  private readonly fields = new Map<string, Field>();
  private piece = 0;

  constructor(
    private readonly stage: HTMLElement,
    private readonly read: Read,
    private readonly write: Write,
    private readonly complain: Complain,
  ) {
    this.choice.addEventListener("change", () => this.show());
    stage.addEventListener("focusin", (event) => this.about(event));
    stage.addEventListener("pointerdown", (event) => this.about(event));
  }

  private about(event: Event): void {
    const handle = event.target instanceof HTMLElement ? event.target.dataset["handle"] : undefined;
    if (!handle?.startsWith("picture.")) return;
    this.piece = Number(handle.slice("picture.".length));
    this.show();
  }

  /** Shows the crop of the piece that was touched last, while that is what a drag moves. */
  show(): void {
    const isOn = this.choice.querySelector<HTMLInputElement>('[value="picture"]')?.checked === true;
    this.stage.dataset["drags"] = isOn ? "picture" : "pieces";
    const where = this.read("split.focus_across") ? "split" : `piece.${this.piece}`;
    const views = ["focus_across", "focus_down"].map((part) => this.read(`${where}.${part}`));
    const [across, down] = views;
    this.line.hidden = !isOn;
    if (!isOn) return;
    if (!across || !down) {
      this.line.replaceChildren("There is no picture to move in this piece.");
      return;
    }
    const known = this.fields.get(across.field)?.element.isConnected === true;
    const [first, second] = [across, down].map((view) => this.field(view)) as [HTMLElement, HTMLElement];
    if (known) return;
    const whose = where === "split" ? "The middle of the crop" : `In piece ${this.piece + 1} the middle of the crop`;
    this.line.replaceChildren(`${whose} is `, first, " from the picture’s left and ", second, " from its head.");
  }

  private field(view: FieldView): HTMLElement {
    const field = this.fields.get(view.field) ?? makeField(view, this.write, this.complain);
    this.fields.set(view.field, field);
    field.update(view);
    return field.element;
  }
}
