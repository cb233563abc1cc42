// The specification in short: what a buyer decides, what comes of it in a line, and what is unwise.

import type { FindingView, ParagraphView, View } from "../generated/overmantel.js";
import { make } from "../page/dom.js";
import type { Write } from "./field.js";
import { counted, type Mend, Notes } from "./notes.js";
import { complaints, Sentence } from "./sentence.js";

/** From this weight on a note is told at once, and not only counted: someone may be hurt, or nobody can make it. */
const GRAVE = 2;

/** The specification in short. */
export class Short {
  private readonly lines = new Map<string, Sentence>();
  private readonly grave: Notes;
  private readonly lesser: Notes;
  private readonly summary = make("summary", {});
  private readonly notes: HTMLDetailsElement;
  private readonly none = make("p", { class: "quiet" }, "Nothing to note.");
  private readonly complaint = complaints();

  constructor(
    private readonly place: HTMLElement,
    private readonly write: Write,
    mend: Mend,
    /** A remedy was taken. */
    mended: () => void,
  ) {
    const notes = (): Notes => new Notes(mend, this.complaint.complain, mended);
    [this.grave, this.lesser] = [notes(), notes()];
    this.notes = make("details", { id: "notes" }, this.summary, this.lesser.element);
  }

  /** Shows it as the plan is now. */
  show(view: View, after: HTMLElement): void {
    for (const { about, runs } of view.short) {
      const line = this.lines.get(about) ?? this.add(about);
      line.show(runs);
    }
    if (!this.notes.isConnected) after.after(this.grave.element, this.notes, this.none, this.complaint.element);
    const findings = view.paragraphs.flatMap((paragraph: ParagraphView) => paragraph.findings);
    const isGrave = ({ weight }: FindingView): boolean => weight >= GRAVE;
    const lesser = findings.filter((finding) => !isGrave(finding));
    this.grave.show(findings.filter(isGrave));
    this.lesser.show(lesser);
    this.summary.textContent = counted(lesser);
    this.notes.hidden = lesser.length === 0;
    this.none.hidden = findings.length > 0;
  }

  /** Takes it away: the specification is told in full. */
  clear(): void {
    this.lines.clear();
    this.place.replaceChildren();
    for (const part of [this.grave.element, this.notes, this.none, this.complaint.element]) part.remove();
  }

  private add(about: string): Sentence {
    const { element, complain } = complaints();
    const sentence = new Sentence(this.write, complain);
    this.place.append(make("div", { "data-about": about }, sentence.body, element));
    this.lines.set(about, sentence);
    return sentence;
  }
}
