// Proposals: made by the one who sends them, and read, decided and answered by the one who gets them.

import { known, make } from "../page/dom.js";
import type { ProposalView, View, Workbench as Desk } from "../generated/overmantel.js";
import { button, copyText, field, pageAddress } from "./link.js";
import { inside, pageWith } from "../page/source.js";

/** What the page does for it. */
export interface Proposing {
  /** The plan as a file with its pictures, reduced for sending. */
  fullPlan(): Promise<string>;
  /** Hands a file out. */
  save(name: string, content: Blob): void;
  /** Something to say in the line below the drawing. */
  say(text: string): void;
  /** What is said of a proposal is another. */
  stated(): void;
}

/** What is said of a proposal besides the plan; its papers say the same. */
export interface Stated {
  title: string;
  from: string;
  note: string;
  valid_until: string;
  /** The lines of its price, where they are others than the price book makes. */
  prices: string[] | undefined;
}

/** Where a proposal is made. */
export class ProposalForm {
  private readonly details = known<HTMLDetailsElement>("propose");
  private readonly title: HTMLInputElement;
  private readonly from: HTMLInputElement;
  private readonly until: HTMLInputElement;
  private readonly note = area("What you want to say");
  /** What was filled in as prices last. */
  private filled = "";
  private readonly prices = area("Prices, a line each, such as: three prints, framed, 640 EUR; filled in from a price book that is open");

  constructor(
    private readonly desk: Desk,
    private readonly page: Proposing,
  ) {
    const title = field("Title", "", "", "text");
    const from = field("From", "", "your name", "text");
    const until = field("It holds until", "", "", "date");
    [this.title, this.from, this.until] = [title.input, from.input, until.input];
    this.details.append(
      make("p", {}, "One file with the plan, its pictures (reduced, and with nothing of the camera or the place in them), your prices and a message. It opens in any browser, and can be changed and answered there."),
      title.element,
      from.element,
      until.element,
      this.note.element,
      this.prices.element,
      button("Save the proposal as a file", () => void this.save()),
    );
    this.details.addEventListener("change", () => page.stated());
    this.details.addEventListener("toggle", () => {
      if (this.title.value === "") this.title.value = this.desk.view(undefined).title;
      this.show();
    });
  }

  /** Fills in what the plan costs by the price book that is open; what was written there stays. */
  show(): void {
    const { input } = this.prices;
    if (!this.details.open || input.value !== this.filled) return;
    this.filled = this.desk.price_lines().join("\n");
    input.value = this.filled;
    input.rows = Math.max(3, Math.min(12, this.filled.split("\n").length));
  }

  /** What is said of it. */
  stated(): Stated {
    const { value } = this.prices.input;
    return {
      title: this.title.value.trim() || this.desk.view(undefined).title,
      from: this.from.value.trim(),
      note: this.note.input.value.trim(),
      valid_until: this.until.value,
      prices: value === this.filled ? undefined : value.split("\n").filter((line) => line.trim() !== ""),
    };
  }

  /** Opens it, to be filled in. */
  open(): void {
    this.details.open = true;
    this.from.focus();
  }

  private async save(): Promise<void> {
    try {
      const { title, from, note, valid_until } = this.stated();
      const data = this.desk.proposal({
        title,
        from,
        note,
        valid_until,
        address: pageAddress(),
        prices: this.prices.input.value.split("\n"),
        plan: await this.page.fullPlan(),
      });
      this.page.save(`${title}.html`, pageWith(title, data));
      this.page.say("The proposal is saved. Open it once yourself before you send it.");
    } catch (error) {
      this.page.say(`The proposal was not saved: ${error instanceof Error ? error.message : String(error)}.`);
    }
  }
}

/** What the recipient may decide, by its name in an answer. */
const DECISIONS = [
  ["size", "the sizes"],
  ["make_up", "what they are made of"],
  ["frame", "the frames"],
] as const;

/** Sizes that a recipient looks for first. */
const SIZES = ["Image", "Mat opening", "Frame to buy", "Outside"];

/** A proposal that lies in this page, to be read without knowing the tool. */
export class ProposalSheet {
  private readonly place = known("proposed");
  private readonly words = make("div", {});
  private readonly changed = make("div", {});
  private readonly name = field("Your name", "", "", "text").element;
  private readonly note = area("What else you want to say");
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
    const back = button("Back to the proposal", () => this.show(true));
    back.id = "back";
    back.className = "main";
    known("choose").after(back);
    this.place.append(
      make("h2", {}, title),
      ...(from === "" ? [] : [make("p", { class: "from" }, `A proposal from ${from}`)]),
      ...paragraphs(note),
      make("p", {}, button("Change it", () => this.show(false)), " Sizes, frames, places: everything can be tried, and nothing leaves this machine."),
      this.words,
      ...(prices.length === 0 ? [] : [make("h3", {}, "Prices"), make("ul", {}, ...prices.map((line) => make("li", {}, line)))]),
      ...(valid_until === "" ? [] : [make("p", {}, `This proposal holds until ${inWords(valid_until)}.`)]),
      this.changed,
      make("h3", {}, "Your answer"),
      make("fieldset", {}, make("legend", {}, "Decided are"), ...this.boxes.map(({ words, input }) => make("label", {}, input, " ", words))),
      this.name,
      this.note.element,
      make("p", {}, button("Save my answer as a file", () => this.save()), button("Copy my answer", () => this.copy()), " Send either back as you like; a mail will do."),
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
    const sizes = view.table.filter(({ term }) => SIZES.includes(term)).map(({ term, inches, centimetres }) => {
      const both = view.units === "inches" ? [inches, centimetres] : [centimetres, inches];
      return make("li", {}, `${term}: ${both.join(" · ")}`);
    });
    this.words.replaceChildren(
      make("h3", {}, view.pieces === 1 ? "The piece" : "Each piece (the first, where they differ)"),
      make("ul", {}, ...sizes),
      make("details", {}, make("summary", {}, "Everything that is stated"), ...sentences(view)),
    );
    const rows = this.desk.differences(this.sent, this.desk.plan_file());
    this.changed.replaceChildren(...(rows.length === 0 ? [] : [make("h3", {}, "What you changed"), make("ul", {}, ...rows.map((row) => make("li", {}, `${row}.`)))]));
  }

  private answer(): string {
    const decided = Object.fromEntries(this.boxes.map(({ code, input }) => [code, input.checked])) as Record<"size" | "make_up" | "frame", boolean>;
    const from = this.name.querySelector("input")?.value.trim() ?? "";
    const note = this.note.input.value.trim();
    const link = this.desk.answer_link({ to: this.mark, ...decided, from, note });
    const words = this.boxes.filter(({ input }) => input.checked).map(({ words }) => words);
    const rows = this.desk.differences(this.sent, this.desk.plan_file());
    return [
      `Answer to: ${this.proposal.title}`,
      ...(from === "" ? [] : [`From: ${from}`]),
      words.length === 0 ? "Nothing is decided yet." : `Decided: ${words.join(", ")}.`,
      ...(rows.length === 0 ? ["Nothing is changed."] : ["Changed:", ...rows.map((row) => `- ${row}.`)]),
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

function area(label: string): { element: HTMLElement; input: HTMLTextAreaElement } {
  const input = make("textarea", { rows: "3" });
  return { element: make("label", { class: "line" }, make("span", {}, label), input), input };
}
