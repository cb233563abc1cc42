// Whole plans to begin with, each drawn small.

import { Thumbnails } from "../drawing/thumbnails.js";
import type { Write } from "../field/field.js";
import type { Desk } from "../generated/overmantel.js";
import { known } from "../page/dom.js";

/** The part of the page that offers them. */
export class Starts {
  private readonly details = known<HTMLDetailsElement>("starts");
  private readonly thumbnails: Thumbnails;

  constructor(
    private readonly desk: Desk,
    private readonly write: Write,
    private readonly say: (text: string) => void,
  ) {
    this.thumbnails = new Thumbnails(
      (context, sheet, code) => desk.draw_start(context, sheet, code),
      ({ code, words }) => this.begin(code, words),
    );
    this.details.append(this.thumbnails.element);
    this.details.addEventListener("toggle", () => this.show());
  }

  /** Shows them as they are now, if this part is open. */
  show(): void {
    if (this.details.open) this.thumbnails.show(this.desk.starts());
  }

  /** Begins with a whole plan, as one step that can be undone. */
  private begin(code: string, words: string): void {
    const { error } = this.write("offer.start", code);
    this.say(error ?? `Started from “${words}”; undo brings back what was there.`);
  }
}
