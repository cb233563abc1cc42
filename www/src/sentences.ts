// The specification: paragraphs of words, figures and fields.

import { make } from "./dom.js";
import { makeField, type Complain, type Field, type Write } from "./field.js";
import type { ParagraphView, RunView } from "./generated/overmantel.js";
import { Count, Notes } from "./notes.js";

/** A text that follows a field, parted into the mark that must not begin a line and the rest. */
function parted(text: string, before: RunView | undefined): [string, string] {
  const mark = before?.run === "field" && /^[,.;:]/.test(text) ? text.slice(0, 1) : "";
  return [mark, text.slice(mark.length)];
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

/** One paragraph as it stands on the page. */
interface Shown {
  section: HTMLElement;
  heading: HTMLElement;
  body: HTMLElement;
  notes: Notes;
  complaint: HTMLElement;
  complain: Complain;
  form: string;
  pieces: (Field | Text | HTMLElement)[];
}

/** The specification on the page. */
export class Sentences {
  private readonly shown = new Map<string, Shown>();
  private readonly count: Count;

  constructor(
    private readonly place: HTMLElement,
    private readonly write: Write,
    /** What stands beside the heading of a paragraph, by its name. */
    private readonly beside: Record<string, HTMLElement>,
  ) {
    this.count = new Count(place);
    place.append(this.count.element);
  }

  /** Shows paragraphs; what stays the same in form keeps its elements, so that focus and typing are left alone. */
  show(paragraphs: ParagraphView[]): void {
    for (const paragraph of paragraphs) {
      const shown = this.shown.get(paragraph.about) ?? this.add(paragraph);
      if (shown.heading.firstChild) shown.heading.firstChild.textContent = paragraph.heading;
      const form = paragraph.runs.map((run) => (run.run === "field" ? `${run.field}:${run.kind}` : run.run)).join("|");
      if (form === shown.form) this.refresh(shown, paragraph.runs);
      else this.rebuild(shown, paragraph.runs, form);
      shown.notes.show(paragraph.findings);
    }
    this.count.show(paragraphs);
  }

  private add(paragraph: ParagraphView): Shown {
    const heading = make("h2", {}, paragraph.heading);
    const beside = this.beside[paragraph.about];
    if (beside) heading.append(beside);
    const body = make("p");
    const complaint = make("div", { role: "alert" });
    const complain = (message: string | null): void => {
      complaint.replaceChildren(...(message ? [make("p", { class: "note error" }, message)] : []));
    };
    const notes = new Notes(this.write, complain, () => this.count.mended());
    const section = make("section", { "data-about": paragraph.about }, heading, body, complaint, notes.element);
    this.place.append(section);
    const shown = { section, heading, body, notes, complaint, complain, form: "", pieces: [] };
    this.shown.set(paragraph.about, shown);
    return shown;
  }

  private refresh(shown: Shown, runs: RunView[]): void {
    runs.forEach((run, index) => {
      const piece = shown.pieces[index];
      if (run.run === "field") (piece as Field).update(run);
      else if (run.run === "text") (piece as Text).textContent = parted(run.text, runs[index - 1])[1];
      else if (run.run === "offer") showOffer(piece as HTMLButtonElement, run, this.write, shown.complain);
      else showFigure(piece as HTMLElement, run);
    });
  }

  private rebuild(shown: Shown, runs: RunView[], form: string): void {
    const focused = document.activeElement?.closest<HTMLElement>("#specification .field")?.dataset["field"];
    const { complain } = shown;
    complain(null);
    const had = shown.body.contains(document.activeElement);
    shown.form = form;
    shown.pieces = runs.map((run, index) => {
      if (run.run === "text") return document.createTextNode(parted(run.text, runs[index - 1])[1]);
      if (run.run === "figure") return showFigure(make("span", { class: "figure" }), run);
      if (run.run === "offer") return showOffer(make("button", { type: "button", class: "offer" }), run, this.write, complain);
      return makeField(run, this.write, complain);
    });
    shown.body.replaceChildren(
      ...shown.pieces.map((piece, index) => {
        if (piece instanceof Node) return piece;
        const next = runs[index + 1];
        const mark = next?.run === "text" ? parted(next.text, runs[index])[0] : "";
        return mark ? make("span", { class: "together" }, piece.element, mark) : piece.element;
      }),
    );
    if (!focused || !had) return;
    // The field that had the focus, or the last of its paragraph where it is gone.
    const still = shown.body.querySelector(`[data-field="${CSS.escape(focused)}"]`);
    const last = [...shown.body.querySelectorAll<HTMLElement>(".field")].at(-1)?.dataset["field"];
    this.focus(still ? focused : (last ?? focused));
  }

  /** Puts the focus on a field, where there is one of that name. */
  focus(field: string): void {
    this.place
      .querySelector<HTMLElement>(`[data-field="${CSS.escape(field)}"] :is(input, select)`)
      ?.focus({ preventScroll: true });
  }
}
