// A proposal as its client has it: read, looked through option by option, changed, priced and answered. What becomes of it is kept by
// proposal, so that a reload or another day finds it.

import type { Desk, HeadView, OfferView, QuoteView } from "../generated/overmantel.js";
import { keepReply, keptReply } from "../kept/local.js";
import { refusal } from "../kept/refusal.js";
import { button } from "../page/controls.js";
import { known, make } from "../page/dom.js";
import { inShort } from "../page/saying.js";
import { inside } from "../page/source.js";
import { today } from "../page/today.js";
import { put } from "../pictures/copies.js";
import { fromFile } from "../pictures/pictures.js";
import type { Core } from "../start/core.js";
import { OptionCards } from "./option-cards.js";
import type { Proposing } from "./proposal-form.js";
import { ReplyForm, type Replied } from "./reply-form.js";

type OpenedProposal = InstanceType<Core["OpenedProposal"]>;

/** What is kept of a proposal on the client's side: their plans, empty where one is as it was sent, and their answer. */
interface Kept extends Replied {
  plans: string[];
  /** Which option is shown large. */
  shown: number;
}

/** What the page does for it. */
export interface Reading extends Proposing {
  /** Another plan has come: its pictures are looked for, and it is shown. */
  shown(): Promise<void>;
  /** Puts on a desk what copies there are of its plan's pictures, besides those of the proposal. */
  furnish(desk: Desk): Promise<void>;
}

/** A proposal that lies in this page, to be read without knowing the tool. */
export class ProposalSheet {
  private readonly letter = known("letter");
  private readonly offered = known("offered");
  private readonly place = known("proposed");
  private readonly words = make("div", {});
  private readonly changed = make("div", {});
  private readonly priced = make("div", {});
  private readonly cards: OptionCards;
  private readonly reply: ReplyForm;
  private readonly options: OfferView[];
  /** Each option in the photograph of the room, where it was sent with one. */
  private readonly inRoom: HTMLElement[][];
  private readonly head: HeadView;
  private readonly pictures = new Map<string, ImageData>();
  private kept: Kept;
  private isKept = true;

  constructor(
    private readonly core: Core,
    private readonly desk: Desk,
    private readonly opened: OpenedProposal,
    private readonly page: Reading,
  ) {
    this.head = opened.head(today());
    this.options = opened.options(desk);
    this.inRoom = this.options.map(({ name, in_room }) => (in_room === "" ? [] : [photograph(name || this.head.title, in_room)]));
    this.kept = taken(keptReply(), this.options.length);
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
    this.cards = new OptionCards(core, this.options, {
      plan: (index) => this.plan(index),
      total: (index) => this.quote(index),
      rows: (plans) => opened.side_by_side(desk, plans),
      furnish: (other) => this.furnish(other),
      take: (index) => void this.take(index),
    });
    this.reply = new ReplyForm(desk, this.kept, {
      changed: (reply) => this.keep(reply),
      reply: (stated) => opened.reply(desk, { ...stated, option: this.kept.shown }),
      save: page.save,
      say: page.say,
    });
    const asSent = button("As it was sent", () => void this.reset());
    asSent.id = "as-sent";
    this.letter.append(...heading(this.head));
    this.offered.append(this.cards.element);
    this.place.append(
      this.words,
      make("p", {}, change, asSent, " Try other sizes, frames and places. Nothing leaves this device."),
      this.changed,
      this.priced,
      this.reply.element,
      make("p", { class: "caution" }, desk.view(undefined).caution),
    );
    known("view").addEventListener("change", () => void this.cards.draw());
  }

  /** By which name a browser's window shows it. */
  get title(): string {
    return this.head.title;
  }

  /** Puts the option that was shown last on the desk, with its pictures; says what is wrong with it, or nothing. */
  async begin(): Promise<void> {
    for (const { plan } of this.options) await this.decode(plan);
    if (this.head.book !== undefined) this.desk.open_book(this.head.book);
    this.open(this.kept.shown);
    this.show(true);
    await this.furnish(this.desk);
    await this.page.shown();
    this.update();
    void this.cards.draw();
  }

  /** Shows the proposal, or the whole page. */
  show(asProposal: boolean): void {
    document.body.dataset["proposal"] = asProposal ? "read" : "changed";
    for (const part of [this.letter, this.offered, this.place]) part.hidden = !asProposal;
    // Nothing on the drawing is to be moved by chance while it is read.
    known("overlay").inert = asProposal;
    if (asProposal) {
      this.update();
      void this.cards.draw();
    }
    dispatchEvent(new Event("resize"));
    scrollTo(0, 0);
  }

  /** The plan at work has changed: it is kept as what became of the option that is shown. */
  follow(): void {
    const { shown, plans } = this.kept;
    const now = this.desk.plan_file();
    if (now === this.plan(shown)) return;
    plans[shown] = now === this.options[shown]?.plan ? "" : now;
    this.keep(this.kept);
    if (!this.place.hidden) this.update();
  }

  /** The plan of an option as it is now. */
  private plan(index: number): string {
    return this.kept.plans[index] || (this.options[index]?.plan ?? "");
  }

  private quote(index: number): QuoteView {
    return this.opened.quote(this.desk, index, this.plan(index));
  }

  /** Puts the plan of an option to work, and asks for what it is priced with. */
  private open(index: number): void {
    const option = this.options[index];
    if (option === undefined) return;
    // What can't be opened any more gives way to what was sent.
    if (this.desk.begin_with(this.plan(index)).error !== undefined) {
      this.kept.plans[index] = "";
      const { error } = this.desk.begin_with(option.plan);
      if (error !== undefined) throw new Error(error);
    }
    this.kept.shown = index;
    for (const name of this.desk.asked()) this.desk.ask_for(name, false);
    const waiting = this.desk.extras().map(({ name }) => name);
    for (const name of option.with) if (waiting.includes(name)) this.desk.ask_for(name, true);
  }

  /** Shows another option large. */
  private async take(index: number): Promise<void> {
    this.open(index);
    this.keep(this.kept);
    await this.furnish(this.desk);
    await this.page.shown();
    this.update();
    const { total } = this.quote(index);
    const name = inShort(this.options[index]?.name ?? "");
    this.page.say(total === "" ? `${name} is shown large.` : `${name} is shown large: ${total}.`);
  }

  /** Brings back the option that is shown as it was sent, as a step that can be undone. */
  private async reset(): Promise<void> {
    const sent = this.options[this.kept.shown]?.plan;
    if (sent === undefined) return;
    this.desk.open(sent);
    this.follow();
    await this.furnish(this.desk);
    await this.page.shown();
    this.update();
    void this.cards.draw();
    this.page.say("The option is as it was sent.");
  }

  private keep(reply: Replied): void {
    this.kept = { ...this.kept, ...reply };
    const { plans, shown, verdict, size, make_up, frame, from, note } = this.kept;
    const isKept = keepReply(JSON.stringify({ plans, shown, verdict, size, make_up, frame, from, note }));
    // It is said once.
    if (!isKept && this.isKept) this.page.say(`What you change here is not kept: ${refusal()}. Save your answer as a file before you close this page.`);
    this.isKept = isKept;
  }

  private async decode(plan: string): Promise<void> {
    const copies = this.opened.copies(plan);
    const desk = new this.core.Desk(plan);
    const names = desk.copies().map(({ name }) => name);
    desk.free();
    for (const [index, name] of names.entries()) {
      const filed = copies[index];
      if (filed && !this.pictures.has(name)) this.pictures.set(name, await fromFile(this.core, filed, name));
    }
  }

  /** Puts on a desk the pictures of the proposal, and whatever else the client has chosen. */
  private async furnish(desk: Desk): Promise<void> {
    for (const { name } of desk.wanted_copies()) {
      const copy = this.pictures.get(name);
      if (copy) put(desk, name, copy);
    }
    await this.page.furnish(desk);
  }

  /** Shows the option as it is now: its sizes, what became of the one that was sent, and what it costs. */
  private update(): void {
    const { shown } = this.kept;
    const view = this.desk.view(undefined);
    const { changes, total, lines, said } = this.quote(shown);
    const name = this.options[shown]?.name ?? "";
    const sizes = this.desk.brief_sizes().map((line) => make("li", {}, line));
    const each = view.pieces === 1 ? "The piece" : "Each piece (the first, where they differ)";
    this.words.replaceChildren(
      make("h3", {}, name === "" ? each : name),
      ...(name === "" ? [] : [make("p", { class: "from" }, each)]),
      make("ul", {}, ...sizes),
      ...(this.inRoom[shown] ?? []),
      make("details", {}, make("summary", {}, "How it is made, in full"), ...sentences(view)),
    );
    this.changed.replaceChildren(...(changes.length === 0 ? [] : [make("h3", {}, "What you changed"), make("ul", {}, ...changes.map((row) => make("li", {}, `${row}.`)))]));
    known("as-sent").hidden = changes.length === 0;
    const prices = lines.length === 0 ? [] : [make(total === "" ? "ul" : "details", {}, ...(total === "" ? [] : [make("summary", {}, "What it comes from")]), ...lines.map((line) => make(total === "" ? "li" : "p", {}, line)))];
    const sum = total === "" ? [] : [make("p", { class: "total" }, total)];
    const word = said === "" ? [] : [make("p", { class: total === "" ? "note" : "" }, said)];
    this.priced.replaceChildren(...(lines.length + sum.length + word.length === 0 ? [] : [make("h3", {}, "Price"), ...sum, ...word, ...prices]));
    this.cards.update(shown);
    this.reply.show();
  }
}

/** An option in the photograph of the room. */
function photograph(name: string, address: string): HTMLElement {
  return make("figure", {}, make("img", { src: address, alt: `${name}, in a photograph of the room`, loading: "lazy" }), make("figcaption", {}, "In the room, as it was sent. Sizes are right within centimetres, colours only roughly."));
}

/** What stands at the head of a proposal. */
function heading(head: HeadView): HTMLElement[] {
  const emblem = head.emblem === "" ? [] : [make("img", { src: head.emblem, alt: head.from === "" ? "The sender's mark" : `The mark of ${head.from}`, class: "emblem" })];
  const by = [head.from === "" ? "" : `A proposal from ${head.from}`, head.client === "" ? "" : `for ${head.client}`].filter(Boolean).join(" ");
  const when = [head.number, head.date].filter(Boolean).join(", ");
  return [
    ...emblem,
    make("h2", {}, head.title),
    ...[by, when].filter(Boolean).map((line) => make("p", { class: "from" }, line)),
    ...(head.contact.length === 0 ? [] : [make("p", { class: "from" }, head.contact.join(" · "))]),
    ...head.note.map((paragraph) => make("p", { class: "message" }, paragraph)),
    ...(head.valid === "" ? [] : [make("p", { class: head.has_passed ? "note" : "" }, head.valid)]),
  ];
}

/** The proposal that lies in this page; none where it is a page like any other. Throws a plain sentence. */
export function proposalInside(core: Core): OpenedProposal | undefined {
  const data = inside();
  return data === null ? undefined : new core.OpenedProposal(data);
}

/** What was kept of the answer, as far as it fits the proposal. */
function taken(text: string | null, count: number): Kept {
  const fresh: Kept = { plans: Array<string>(count).fill(""), shown: 0, verdict: "open", size: false, make_up: false, frame: false, from: "", note: "" };
  try {
    const kept = { ...fresh, ...(JSON.parse(text ?? "{}") as Partial<Kept>) };
    const fits = Array.isArray(kept.plans) && kept.plans.length === count && kept.shown in kept.plans;
    return fits ? kept : fresh;
  } catch {
    return fresh;
  }
}

/** The specification as it is read aloud. */
function sentences(view: ReturnType<Desk["view"]>): HTMLElement[] {
  return view.paragraphs
    .filter(({ about }) => ["picture", "made", "hanging"].includes(about))
    .flatMap(({ heading, runs }) => {
      const words = runs.filter((run) => run.run !== "offer").map((run) => ("text" in run && run.run === "text" ? run.text : "shown" in run ? run.shown : ""));
      return [make("h3", {}, heading), make("p", {}, words.join(""))];
    });
}
