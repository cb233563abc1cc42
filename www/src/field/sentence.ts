// A sentence: words, figures, fields and offers in the line.

import { make } from "../page/dom.js";
import { Saying } from "../page/saying.js";
import { makeField, type Complain, type Field, type Write } from "./field.js";
import type { RunView } from "../generated/overmantel.js";
import { TermButton } from "./term.js";

/** A text, parted into the marks that must not begin a line behind a field, the words, and the mark that must not end one before a field. */
function parted(runs: RunView[], index: number): [string, string, string] {
  const run = runs[index];
  const text = run?.run === "text" ? run.text : "";
  const closes = runs[index - 1]?.run === "field" ? (/^\u201d?[,.;:]?/.exec(text)?.[0] ?? "") : "";
  const opens = runs[index + 1]?.run === "field" && text.endsWith("\u201c") ? "\u201c" : "";
  return [closes, text.slice(closes.length, opens === "" ? undefined : -1), opens];
}

function showFigure(element: HTMLElement, figure: RunView & { run: "figure" }): HTMLElement {
  element.textContent = figure.shown;
  element.classList.toggle("rounded", figure.rounded);
  return element;
}

/** Words that take something into the plan when they are pressed. */
function showOffer(button: HTMLButtonElement, offer: RunView & { run: "offer" }, write: Write, complain: Complain): HTMLElement {
  button.textContent = offer.shown;
  button.onclick = () => complain(write(offer.field, offer.text).error ?? null);
  return button;
}

/** A place for what is wrong with a field. */
export function complaints(): { element: HTMLElement; complain: Complain } {
  const note = make("p", { class: "note error", hidden: true });
  const element = make("div", {}, note);
  const saying = new Saying(note, "alert");
  const complain = (message: string | null): void => {
    note.hidden = !message;
    saying.say(message ?? "");
  };
  return { element, complain };
}

/** A sentence on the page. What stays the same in form keeps its elements, so that focus and typing are left alone. */
export class Sentence {
  readonly body = make("p");
  private form = "";
  private pieces: (Field | TermButton | Text | HTMLElement)[] = [];

  constructor(
    private readonly write: Write,
    private readonly complain: Complain,
  ) {}

  /** Shows runs in place of those before. */
  show(runs: RunView[]): void {
    const form = runs.map((run) => (run.run === "field" ? `${run.field}:${run.kind}` : run.run)).join("|");
    if (form === this.form) this.refresh(runs);
    else this.rebuild(runs, form);
  }

  private refresh(runs: RunView[]): void {
    runs.forEach((run, index) => {
      const piece = this.pieces[index];
      if (run.run === "field") (piece as Field).update(run);
      else if (run.run === "term") (piece as TermButton).show(run);
      else if (run.run === "text") (piece as Text).textContent = parted(runs, index)[1];
      else if (run.run === "offer") showOffer(piece as HTMLButtonElement, run, this.write, this.complain);
      else showFigure(piece as HTMLElement, run);
    });
  }

  private rebuild(runs: RunView[], form: string): void {
    const { body, complain } = this;
    const had = body.contains(document.activeElement);
    const focused = document.activeElement?.closest<HTMLElement>(".field")?.dataset["field"];
    complain(null);
    this.form = form;
    this.pieces = runs.map((run, index) => {
      if (run.run === "text") return document.createTextNode(parted(runs, index)[1]);
      if (run.run === "term") return new TermButton(run);
      if (run.run === "figure") return showFigure(make("span", { class: "figure" }), run);
      if (run.run === "offer") return showOffer(make("button", { type: "button", class: "offer" }), run, this.write, complain);
      return makeField(run, this.write, complain);
    });
    body.replaceChildren(
      ...this.pieces.map((piece, index) => {
        if (piece instanceof Node) return piece;
        const [opens, closes] = [parted(runs, index - 1)[2], parted(runs, index + 1)[0]];
        return opens + closes === "" ? piece.element : make("span", { class: "together" }, opens, piece.element, closes);
      }),
    );
    if (!focused || !had) return;
    // The field that had the focus, or the last of the sentence where it is gone.
    const still = body.querySelector(`[data-field="${CSS.escape(focused)}"]`) ?? [...body.querySelectorAll(".field")].at(-1);
    still?.querySelector<HTMLElement>("input, select")?.focus({ preventScroll: true });
  }
}
