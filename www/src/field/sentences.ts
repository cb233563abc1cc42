// The specification in full: paragraphs that open by themselves, each with what is unwise beside it; closed, each in a line.

import { keepOpen, keptOpen } from "../kept/local.js";
import { make } from "../page/dom.js";
import type { Write } from "./field.js";
import type { ParagraphView } from "../generated/overmantel.js";
import { Count, type Mend, Notes } from "./notes.js";
import { complaints, Sentence } from "./sentence.js";

/** One paragraph as it stands on the page. */
interface Shown {
  details: HTMLDetailsElement;
  heading: HTMLElement;
  line: HTMLElement;
  sentence: Sentence;
  notes: Notes;
}

/** What is open until somebody opens or closes a paragraph. */
const OPEN_AT_FIRST = ["made"];

/** The specification in full. */
export class Sentences {
  private readonly shown = new Map<string, Shown>();
  private readonly count: Count;

  constructor(
    private readonly place: HTMLElement,
    private readonly write: Write,
    private readonly mend: Mend,
    /** What stands before the sentences of a paragraph, by its name. */
    private readonly before: Record<string, HTMLElement>,
  ) {
    this.count = new Count(place);
  }

  /** Shows paragraphs. */
  show(paragraphs: ParagraphView[]): void {
    if (!this.count.element.isConnected) this.place.append(this.count.element);
    for (const paragraph of paragraphs) {
      const shown = this.shown.get(paragraph.about) ?? this.add(paragraph);
      shown.heading.textContent = paragraph.heading;
      shown.line.textContent = [paragraph.line, noted(paragraph)].filter(Boolean).join(" · ");
      shown.sentence.show(paragraph.runs);
      shown.notes.show(paragraph.findings);
    }
    this.count.show(paragraphs);
  }

  /** Takes it away: the specification is told in short. */
  clear(): void {
    this.shown.clear();
    this.place.replaceChildren();
  }

  private add(paragraph: ParagraphView): Shown {
    const { about } = paragraph;
    const heading = make("h2", {});
    const line = make("span", { class: "line" });
    const { element, complain } = complaints();
    const sentence = new Sentence(this.write, complain);
    const notes = new Notes(this.mend, complain, () => this.count.mended());
    const before = this.before[about];
    const details = make("details", { "data-about": about }, make("summary", {}, heading, line), ...(before ? [before] : []), sentence.body, element, notes.element);
    details.open = (keptOpen() ?? OPEN_AT_FIRST).includes(about);
    details.addEventListener("toggle", () => this.keep());
    this.place.append(details);
    const shown = { details, heading, line, sentence, notes };
    this.shown.set(about, shown);
    return shown;
  }

  private keep(): void {
    if (this.shown.size > 0) keepOpen([...this.shown].filter(([, { details }]) => details.open).map(([about]) => about));
  }
}

/** How many notes a paragraph has, for its line. */
function noted({ findings }: ParagraphView): string {
  if (findings.length === 0) return "";
  return findings.length === 1 ? "1 note" : `${findings.length} notes`;
}
