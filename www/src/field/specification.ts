// The specification in its two depths, which are two ways to tell the same plan.

import type { View } from "../generated/overmantel.js";
import { keepDepth } from "../kept/local.js";
import { known } from "../page/dom.js";
import type { Depth, PageState } from "../state.js";
import type { Write } from "./field.js";
import type { Mend } from "./notes.js";
import { Sentences } from "./sentences.js";
import { Sentence } from "./sentence.js";
import { Short } from "./short.js";

/** What the page does for it. */
export interface Specified {
  write: Write;
  mend: Mend;
  /** Shows the plan again. */
  show(): void;
  say(text: string): void;
}

/** The specification on the page. */
export class Specification {
  private readonly short: Short;
  private readonly full: Sentences;
  private readonly result = known("result");
  private readonly line: Sentence;
  private readonly choice = known("depth");

  constructor(
    private readonly state: PageState,
    page: Specified,
    /** What stands before the sentences of a paragraph in full. */
    before: Record<string, HTMLElement>,
  ) {
    this.short = new Short(known("short"), page.write, page.mend, () => page.say("Done; undo brings back what was there."));
    this.full = new Sentences(known("full"), page.write, page.mend, before);
    this.line = new Sentence(page.write, () => undefined);
    this.result.append(this.line.body);
    this.choice.addEventListener("change", (event) => {
      if (!(event.target instanceof HTMLInputElement)) return;
      const depth = event.target.value as Depth;
      keepDepth(depth);
      this.turn(depth);
      page.show();
    });
  }

  /** Tells it in another depth from the next showing on. */
  turn(depth: Depth): void {
    this.state.change({ kind: "told", depth });
    // What only a maker looks at opens with it.
    for (const id of ["look", "make-up", "files"]) known<HTMLDetailsElement>(id).open = depth === "full";
  }

  /** Shows it as the plan is now. */
  show(view: View): void {
    const { depth } = this.state.now;
    const input = this.choice.querySelector<HTMLInputElement>(`[value="${depth}"]`);
    if (input) input.checked = true;
    this.line.show(view.result);
    if (depth === "short") {
      this.full.clear();
      this.short.show(view, this.result);
    } else {
      this.short.clear();
      this.full.show(view.paragraphs);
    }
  }
}
