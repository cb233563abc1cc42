// The crop: whether a drag moves the pieces or the picture inside its opening, and the same by fields.

import { makeField, type Complain, type Field, type Write } from "../field/field.js";
import type { Desk, FieldView } from "../generated/overmantel.js";
import { known } from "../page/dom.js";
import type { PageState } from "../state.js";

/** The choice of what a drag moves, with the fields of the crop. */
export class Crop {
  private readonly stage = known("stage");
  private readonly choice = known("drags");
  private readonly line = known("crop");
  private readonly fields = new Map<string, Field>();

  constructor(
    private readonly desk: Desk,
    private readonly state: PageState,
    private readonly write: Write,
    private readonly complain: Complain,
  ) {
    this.choice.addEventListener("change", () => this.show());
    this.stage.addEventListener("focusin", (event) => this.touch(event));
    this.stage.addEventListener("pointerdown", (event) => this.touch(event));
  }

  private touch(event: Event): void {
    const piece = event.target instanceof HTMLElement ? event.target.dataset["pictureOf"] : undefined;
    if (piece === undefined) return;
    this.state.change({ kind: "touched", piece: Number(piece) });
    this.show();
  }

  /** Shows the crop of the piece that was touched last, while that is what a drag moves. */
  show(): void {
    const isOn = this.choice.querySelector<HTMLInputElement>('[value="picture"]')?.checked === true;
    this.state.change({ kind: "dragging", drags: isOn ? "picture" : "pieces" });
    this.stage.dataset["drags"] = this.state.now.drags;
    this.line.hidden = !isOn;
    if (!isOn) return;
    const { touched } = this.state.now;
    const crop = this.desk.crop(touched);
    if (!crop) {
      this.line.replaceChildren("There is no picture to move in this piece.");
      return;
    }
    const isShown = this.fields.get(crop.across.field)?.element.isConnected === true;
    const [across, down] = [this.field(crop.across), this.field(crop.down)];
    if (isShown) return;
    const whose = crop.shared ? "The middle of what is kept" : `In piece ${touched + 1} the middle of what is kept`;
    this.line.replaceChildren(`${whose} is `, across, " from the left of the picture and ", down, " from its top.");
  }

  private field(view: FieldView): HTMLElement {
    const field = this.fields.get(view.field) ?? makeField(view, this.write, this.complain);
    this.fields.set(view.field, field);
    field.update(view);
    return field.element;
  }
}
