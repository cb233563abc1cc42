// The specification: paragraphs, each a sentence or more, with what is unwise beside them.

import { make } from "../page/dom.js";
import type { Write } from "./field.js";
import type { ParagraphView } from "../generated/overmantel.js";
import { Count, type Mend, Notes } from "./notes.js";
import { complaints, Sentence } from "./sentence.js";

/** One paragraph as it stands on the page. */
interface Shown {
  heading: HTMLElement;
  sentence: Sentence;
  notes: Notes;
}

/** The specification on the page. */
export class Sentences {
  private readonly shown = new Map<string, Shown>();
  private readonly count: Count;

  constructor(
    private readonly place: HTMLElement,
    private readonly write: Write,
    private readonly mend: Mend,
    /** What stands beside the heading of a paragraph, by its name. */
    private readonly beside: Record<string, HTMLElement>,
  ) {
    this.count = new Count(place);
    place.append(this.count.element);
  }

  /** Shows paragraphs. */
  show(paragraphs: ParagraphView[]): void {
    for (const paragraph of paragraphs) {
      const shown = this.shown.get(paragraph.about) ?? this.add(paragraph);
      if (shown.heading.firstChild) shown.heading.firstChild.textContent = paragraph.heading;
      shown.sentence.show(paragraph.runs);
      shown.notes.show(paragraph.findings);
    }
    this.count.show(paragraphs);
  }

  private add(paragraph: ParagraphView): Shown {
    const heading = make("h2", {}, paragraph.heading);
    const beside = this.beside[paragraph.about];
    if (beside) heading.append(beside);
    const { element, complain } = complaints();
    const sentence = new Sentence(this.write, complain);
    const notes = new Notes(this.mend, complain, () => this.count.mended());
    this.place.append(make("section", { "data-about": paragraph.about }, heading, sentence.body, element, notes.element));
    const shown = { heading, sentence, notes };
    this.shown.set(paragraph.about, shown);
    return shown;
  }
}
