// Margin notes: what is unwise, how much it matters, why, and the words that mend it when they are pressed.

import { make } from "../page/dom.js";
import { Saying } from "../page/saying.js";
import { capital, uncapitalised } from "../state.js";
import type { Complain } from "./field.js";
import type { FindingView, Outcome, ParagraphView, RemedyView } from "../generated/overmantel.js";

/** Takes the remedy of this identity; says what is wrong, or nothing. */
export type Mend = (id: string) => Outcome;

/** The notes under one paragraph. Those that stay as they are keep their elements, so that focus is left alone. */
export class Notes {
  readonly element = make("div");
  private readonly shown = new Map<string, HTMLElement>();

  constructor(
    private readonly mend: Mend,
    private readonly complain: Complain,
    /** What is done when a remedy was taken. */
    private readonly mended: () => void,
  ) {}

  show(findings: FindingView[]): void {
    const keys = findings.map((finding) => JSON.stringify(finding));
    for (const key of this.shown.keys()) if (!keys.includes(key)) this.shown.delete(key);
    findings.forEach((finding, index) => {
      const key = keys[index] ?? "";
      if (!this.shown.has(key)) this.shown.set(key, this.note(finding));
    });
    const notes = keys.flatMap((key) => this.shown.get(key) ?? []);
    const isSame = notes.length === this.element.children.length && notes.every((note, index) => note === this.element.children[index]);
    if (!isSame) this.element.replaceChildren(...notes);
  }

  private note(finding: FindingView): HTMLElement {
    const remedies = finding.remedies.flatMap((remedy, index) => (index === 0 ? [" ", this.remedy(remedy)] : [" or ", this.remedy({ ...remedy, shown: uncapitalised(remedy.shown) })]));
    return make(
      "div",
      { class: "note", role: "note", tabindex: "-1", "data-code": finding.code },
      make("strong", {}, `${capital(finding.severity)}:`),
      ` ${finding.sentence}`,
      ...remedies,
      " · ",
      make("small", {}, finding.authority),
    );
  }

  private remedy(remedy: RemedyView): HTMLElement {
    const button = make("button", { type: "button", class: "offer" }, remedy.shown);
    button.addEventListener("click", () => {
      const error = this.mend(remedy.id).error ?? null;
      this.complain(error);
      if (error === null) this.mended();
    });
    return button;
  }
}

/** How many notes there are and how much they matter, what matters most first. */
export function counted(findings: FindingView[]): string {
  if (findings.length === 0) return "Nothing to note.";
  const worst = [...findings].sort((one, other) => other.weight - one.weight);
  const severities = [...new Set(worst.map((finding) => finding.severity))];
  const notes = findings.length === 1 ? "1 note" : `${findings.length} notes`;
  if (severities.length === 1) return `${notes}, ${severities[0]}.`;
  const told = severities.map((severity) => {
    const count = findings.filter((finding) => finding.severity === severity).length;
    return ` ${capital(severity)}: ${count}.`;
  });
  return `${notes}.${told.join("")}`;
}

/** How many notes there are and how much they matter, with a way to each of them by keys. */
export class Count {
  private readonly words = make("span");
  private readonly saying = new Saying(this.words);
  private readonly next = make("button", { type: "button", class: "offer", hidden: true }, "Go to the next");
  readonly element = make("p", { id: "counted" }, this.words, " ", this.next);
  private said = "";
  private counted = "";

  constructor(private readonly place: HTMLElement) {
    this.next.addEventListener("click", () => this.go());
  }

  /** Says with the next count that a remedy was taken. */
  mended(): void {
    this.said = "Done; undo brings back what was there. ";
    this.element.tabIndex = -1;
    this.element.focus({ preventScroll: true });
  }

  show(paragraphs: ParagraphView[]): void {
    const findings = paragraphs.flatMap((paragraph) => paragraph.findings);
    const text = counted(findings);
    // What was said before is not said again.
    if (this.said === "" && text === this.counted) this.saying.show(text);
    else this.saying.say(this.said + text);
    this.counted = text;
    this.said = "";
    // A single note is at hand; there is no next one.
    this.next.hidden = findings.length < 2;
  }

  /** Puts the focus on the note after the one that was gone to last, then again on the first. */
  private go(): void {
    const notes = [...this.place.querySelectorAll<HTMLElement>(".note[data-code]")];
    const last = notes.findIndex((note) => note.dataset["last"] !== undefined);
    for (const note of notes) delete note.dataset["last"];
    const note = notes[(last + 1) % Math.max(notes.length, 1)];
    if (!note) return;
    note.dataset["last"] = "";
    const closed = note.closest("details");
    if (closed) closed.open = true;
    note.focus();
    note.scrollIntoView({ block: "nearest" });
  }
}
