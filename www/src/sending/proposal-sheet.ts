// A proposal as it is read, decided and answered by the one who gets it.

import type { Desk, ProposalView, View } from "../generated/overmantel.js";
import { area, button, copyText, line } from "../page/controls.js";
import { known, make } from "../page/dom.js";
import { inside } from "../page/source.js";
import type { Proposing } from "./proposal-form.js";

/** What the recipient may decide, by its name in an answer. */
const DECISIONS = [
  ["size", "the sizes"],
  ["make_up", "what they are made of"],
  ["frame", "the frames"],
] as const;

/** A proposal that lies in this page, to be read without knowing the tool. */
export class ProposalSheet {
  private readonly place = known("proposed");
  private readonly words = make("div", {});
  private readonly changed = make("div", {});
  private readonly name = line("Your name", "", "", "text").element;
  private readonly note = area("Your message");
  private readonly boxes = DECISIONS.map(([code, words]) => ({ code, words, input: make("input", { type: "checkbox" }) }));
  /** The plan as it was sent, without its pictures, and its mark. */
  private sent = "";
  private mark = 0;

  constructor(
    private readonly desk: Desk,
    readonly proposal: ProposalView,
    private readonly page: Proposing,
  ) {
    const { title, from, note, prices, valid_until } = proposal;
    const change = button("Change it", () => {
      this.show(false);
      known("depth").querySelector<HTMLInputElement>("input:checked")?.focus();
    });
    const back = button("Back to the proposal", () => {
      this.show(true);
      change.focus();
    });
    back.id = "back";
    back.className = "main";
    known("choose").after(back);
    this.place.append(
      make("h2", {}, title),
      ...(from === "" ? [] : [make("p", { class: "from" }, `A proposal from ${from}`)]),
      ...paragraphs(note),
      make("p", {}, change, " You can try other sizes, frames and places. Nothing leaves this device."),
      this.words,
      ...(prices.length === 0 ? [] : [make("h3", {}, "Prices"), make("ul", {}, ...prices.map((line) => make("li", {}, line)))]),
      ...(valid_until === "" ? [] : [make("p", {}, `This proposal is valid until ${inWords(valid_until)}.`)]),
      this.changed,
      make("h3", {}, "Your answer"),
      make("fieldset", {}, make("legend", {}, "I have decided on"), ...this.boxes.map(({ words, input }) => make("label", {}, input, " ", words))),
      this.name,
      this.note.element,
      make("p", {}, button("Save my answer as a file", () => this.save()), button("Copy my answer", () => this.copy()), " Send either one back, by mail for example."),
      make("p", { class: "caution" }, this.desk.view(undefined).caution),
    );
  }

  /** Takes the plan on the desk as what was sent. */
  begin(): void {
    this.sent = this.desk.plan_file();
    this.mark = this.desk.mark();
    this.show(true);
  }

  /** Shows the proposal, or the whole page. */
  show(asProposal: boolean): void {
    document.body.dataset["proposal"] = asProposal ? "read" : "changed";
    this.place.hidden = !asProposal;
    // Nothing on the drawing is to be moved by chance while it is read.
    known("overlay").inert = asProposal;
    if (asProposal) this.update();
    dispatchEvent(new Event("resize"));
    scrollTo(0, 0);
  }

  /** Shows the plan as it is now, in sentences, and what became of the one that was sent. */
  private update(): void {
    const view = this.desk.view(undefined);
    const sizes = this.desk.brief_sizes().map((line) => make("li", {}, line));
    this.words.replaceChildren(
      make("h3", {}, view.pieces === 1 ? "The piece" : "Each piece (the first, where they differ)"),
      make("ul", {}, ...sizes),
      make("details", {}, make("summary", {}, "How it is made, in full"), ...sentences(view)),
    );
    const rows = this.changes();
    this.changed.replaceChildren(...(rows.length === 0 ? [] : [make("h3", {}, "What you changed"), make("ul", {}, ...rows.map((row) => make("li", {}, `${row}.`)))]));
  }

  /** What became of the plan that was sent, in a few lines. */
  private changes(): string[] {
    const now = this.desk.plan_file();
    const { changes } = this.desk.summary(this.sent, now);
    if (changes.length > 0) return changes;
    return this.desk.differences(this.sent, now).length === 0 ? [] : ["Only small things changed; the link has them"];
  }

  private answer(): string {
    const decided = Object.fromEntries(this.boxes.map(({ code, input }) => [code, input.checked])) as Record<"size" | "make_up" | "frame", boolean>;
    const from = this.name.querySelector("input")?.value.trim() ?? "";
    const note = this.note.input.value.trim();
    const link = this.desk.answer_link({ to: this.mark, ...decided, from, note });
    const words = this.boxes.filter(({ input }) => input.checked).map(({ words }) => words);
    const rows = this.changes();
    return [
      `Answer to: ${this.proposal.title}`,
      ...(from === "" ? [] : [`From: ${from}`]),
      words.length === 0 ? "Nothing is decided yet." : `I have decided on ${words.join(", ")}.`,
      ...(rows.length === 0 ? ["The plan has not changed."] : ["What changed:", ...rows.map((row) => `- ${row}.`)]),
      ...(note === "" ? [] : ["", note]),
      "",
      "To see it on the wall, open this text or this link with Overmantel:",
      // The last # in it is where the plan begins.
      `${this.proposal.address}#${link}`,
      "",
    ].join("\n");
  }

  private save(): void {
    this.page.save(`Answer to ${this.proposal.title}.txt`, new Blob([this.answer()], { type: "text/plain" }));
    this.page.say("Your answer is saved as a file.");
  }

  private copy(): void {
    copyText(this.answer(), "Your answer is on the clipboard.", this.page.say);
  }
}

/** The proposal that lies in this page; none where it is a page like any other. Throws a plain sentence. */
export function proposalInside(desk: Desk): ProposalView | undefined {
  const data = inside();
  return data === null ? undefined : desk.read_proposal(data);
}

/** The specification as it is read aloud. */
function sentences(view: View): HTMLElement[] {
  return view.paragraphs
    .filter(({ about }) => ["picture", "made", "hanging"].includes(about))
    .flatMap(({ heading, runs }) => {
      const words = runs.filter((run) => run.run !== "offer").map((run) => ("text" in run && run.run === "text" ? run.text : "shown" in run ? run.shown : ""));
      return [make("h3", {}, heading), make("p", {}, words.join(""))];
    });
}

/** A date such as 2027-01-31 as it is written. */
function inWords(date: string): string {
  return new Date(date).toLocaleDateString("en-GB", { dateStyle: "long", timeZone: "UTC" });
}

function paragraphs(text: string): HTMLElement[] {
  return text
    .split(/\n\s*\n/)
    .filter((paragraph) => paragraph !== "")
    .map((paragraph) => make("p", { class: "said" }, paragraph));
}
