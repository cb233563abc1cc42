// Which pieces the sentences on their make are about: all of them, or one.

import { make } from "../page/dom.js";
import { describable, type PageState } from "../state.js";

/** The choice of the pieces that are described. */
export class Described {
  readonly element = make("fieldset", { id: "which" });

  constructor(
    private readonly state: PageState,
    /** Another piece is described. */
    private readonly changed: () => void,
  ) {}

  /** Offers the plan's pieces; those that are offered already are left alone. */
  show(): void {
    const words = describable(this.state.now);
    this.element.hidden = words.length === 0;
    if (this.element.querySelectorAll("input").length === words.length) return;
    const legend = make("legend", { class: "unseen" }, "Which pieces this is about");
    this.element.replaceChildren(...(words.length === 0 ? [] : [legend]), ...words.map((name, index) => this.choice(name, index)));
  }

  private choice(name: string, index: number): HTMLElement {
    const piece = index === 0 ? undefined : index - 1;
    const input = make("input", { type: "radio", name: "which", value: String(index) });
    input.checked = piece === this.state.now.piece;
    input.addEventListener("change", () => {
      this.state.change({ kind: "described", piece });
      this.changed();
    });
    return make("label", {}, input, make("span", {}, name));
  }
}
