// Suggestions: what could hang on the wall, each drawn small with its reasons, to try on and to take.

import { Thumbnails } from "../drawing/thumbnails.js";
import { complaints, Sentence } from "../field/sentence.js";
import type { Desk, Outcome } from "../generated/overmantel.js";
import { known, make } from "../page/dom.js";
import { Saying } from "../page/saying.js";

/** What the page does with them. */
export interface Suggesting {
  /** Shows the drawing as it is now. */
  draw(): void;
  /** The plan has changed. */
  changed(): void;
  say(text: string): void;
}

/** The part of the page that suggests. */
export class SuggestedPlans {
  private readonly details = known<HTMLDetailsElement>("suggestions");
  private readonly line = make("p", { class: "said" });
  private readonly said = new Saying(this.line);
  private readonly sentence: Sentence;
  private readonly thumbnails: Thumbnails;

  constructor(
    private readonly desk: Desk,
    private readonly page: Suggesting,
  ) {
    const { element, complain } = complaints();
    this.sentence = new Sentence((wish, text) => this.wish(wish, text), complain);
    this.thumbnails = new Thumbnails(
      (context, sheet, code) => desk.draw_suggestion(context, sheet, Number(code)),
      ({ code, words }) => this.take(Number(code), words),
      (code) => this.tryOn(code),
    );
    this.details.append(this.sentence.body, element, this.thumbnails.element, this.line);
    this.details.addEventListener("toggle", () => this.show());
  }

  /** Shows what is suggested for the plan as it is now, when this part is open. */
  show(): void {
    if (!this.details.open) return;
    this.sentence.show(this.desk.wishes());
    const { error, suggestions, said } = this.desk.suggested();
    this.thumbnails.show(suggestions.map(({ words, why, cautions, holds }, index) => ({ code: String(index), words, why, cautions, holds })));
    this.said.say(error === undefined ? said : `No suggestions: ${error}.`);
  }

  private wish(wish: string, text: string): Outcome {
    const outcome = this.desk.wish(wish, text);
    if (outcome.error === undefined) this.show();
    return outcome;
  }

  private tryOn(code: string | undefined): void {
    this.desk.try_on(code === undefined ? undefined : Number(code));
    this.page.draw();
  }

  private take(index: number, words: string): void {
    const { error } = this.desk.take_suggestion(index);
    if (error === undefined) this.page.changed();
    this.page.say(error ?? `Chosen: ${words}; undo brings back what was there.`);
  }
}
