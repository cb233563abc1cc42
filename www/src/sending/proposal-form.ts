// A proposal as it is made by the one who sends it: its options, what is said of them, what goes along, and the file.

import type { Desk, MadeView, OptionStated, ProposalStated } from "../generated/overmantel.js";
import { keepDraft, keptDraft } from "../kept/local.js";
import { keptEntries } from "../kept/database.js";
import { area, button, line } from "../page/controls.js";
import { known, make } from "../page/dom.js";
import { reason } from "../page/error.js";
import { inShort } from "../page/saying.js";
import { pageWith } from "../page/source.js";
import { today } from "../page/today.js";
import type { Filing } from "../pictures/pictures.js";
import type { Core } from "../start/core.js";
import { capital } from "../state.js";
import { pageAddress } from "./address.js";

/** What the page does for it. */
export interface Proposing {
  /** The plan at work as a file with its pictures, reduced. */
  fullPlan(filing: Filing): Promise<string>;
  /** Another plan with its pictures. */
  fullOf(plan: string, filing: Filing): Promise<string>;
  /** Whether there is a photograph of a room. */
  hasRoom(): Promise<boolean>;
  /** The pieces of a plan in that photograph, as a JPEG in base64; nothing where they don't hang in it. */
  inRoom(plan: string): Promise<string | undefined>;
  /** A picture as a JPEG in base64, so many pixels large at the most. */
  filed(file: File, largest: number): Promise<string>;
  /** The list of one's own stock, as a file. */
  stock(): string | undefined;
  /** Whether a price book is open. */
  hasBook(): boolean;
  /** Hands a file out. */
  save(name: string, content: Blob): void;
  /** A proposal was sent: it goes into the list. */
  sent(proposal: string): void;
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

/** An option as it is kept: its plan without pictures. */
export interface DraftOption {
  name: string;
  plan: string;
  with: string[];
  /** Its prices where they are written by hand. */
  prices?: string[];
  apart: string;
}

/** What is kept of a proposal that is being made. */
interface Draft {
  fields: Record<string, string>;
  emblem: string;
  options: DraftOption[];
  /** The proposal of which it is the next version, and what that is called. */
  before: string;
}

/** Pixels of the sender's mark at the most. */
const MARK_PX = 400;
/** How large pictures go along, in pixels of their longer side. */
const LARGEST = ["600", "900", "1200", "1600", "2400"];
/** How much of the price book goes along, by its name. */
const SHARES = [
  ["none", "stay as you send them"],
  ["needed", "follow: the rows of your price book that these options need go along"],
  ["all", "follow: your whole price book goes along"],
] as const;

/** Where a proposal is made. */
export class ProposalForm {
  private readonly details = known<HTMLDetailsElement>("propose");
  private readonly title = line("Title", "", "", "text");
  private readonly number = line("Number", "", "your own", "text");
  private readonly client = line("Client", "", "who it is for", "text");
  private readonly from = line("From", "", "your name", "text");
  private readonly contact = area("How to reach you");
  private readonly note = area("Your message");
  private readonly until = line("Valid until", "", "", "date");
  private readonly across = line("A line of text across the pictures", "", "none", "text");
  private readonly largest = make("select", {}, ...LARGEST.map((value) => make("option", { value }, `${value} px`)));
  private readonly share = make("select", {}, ...SHARES.map(([value, words]) => make("option", { value }, words)));
  private readonly shared = make("label", { class: "line" }, make("span", {}, "If your client changes something, prices"), this.share);
  /** It is chosen each time, and not kept: a photograph shows a home. */
  private readonly inRoom = make("input", { type: "checkbox", autocomplete: "off" });
  private readonly roomShown = make("label", { class: "along-with", hidden: true }, this.inRoom, "Show the pieces in my photograph of the room: it goes along, and whoever opens the proposal sees the room");
  private readonly mark = make("p", {});
  private readonly version = make("p", {});
  private readonly list = make("ol", { class: "offers" });
  private readonly keptPlans = make("select", { "aria-label": "Add a plan kept on this device" });
  private readonly along = make("div", { class: "along" });
  private readonly unpriced = make("p", { class: "note" });
  /** The price of the plan at work, where it is the only option. */
  private readonly prices = area("Prices, one per line, such as: three prints, framed, 640 EUR. An open price book fills them in");
  /** What was filled in as title and as prices last. */
  private titled = "";
  private filled = "";
  private draft: Draft = { fields: {}, emblem: "", options: [], before: "" };
  /** Options of which prices and words are open. */
  private readonly unfolded = new WeakSet<DraftOption>();
  private due = 0;
  private turn = 0;

  constructor(
    private readonly core: Core,
    private readonly desk: Desk,
    private readonly page: Proposing,
  ) {
    this.largest.value = "1200";
    this.read();
    const add = button("Add this plan as an option", () => this.add({ plan: desk.plan_file(), with: desk.asked() }));
    this.keptPlans.addEventListener("change", () => void this.addKept());
    this.details.append(
      make("p", {}, "One file with the plans, their pictures (reduced, without camera or location data), your prices and a message. It opens in any browser. Your client can compare, change and answer."),
      this.version,
      make("fieldset", { class: "several" }, make("legend", {}, "Options to choose from"), this.list, make("p", {}, add, " ", this.keptPlans)),
      this.title.element,
      make("div", { class: "pair" }, this.number.element, this.client.element),
      make("div", { class: "pair" }, this.from.element, this.until.element),
      this.contact.element,
      this.mark,
      this.note.element,
      this.prices.element,
      this.unpriced,
      this.shared,
      make("div", { class: "pair" }, make("label", { class: "line" }, make("span", {}, "Pictures go along at"), this.largest), this.across.element),
      this.roomShown,
      this.along,
      button("Save the proposal as a file", () => void this.save()),
      button("Save it as a PDF", () => void this.savePaper()),
    );
    this.details.addEventListener("input", () => {
      this.keep();
      page.stated();
      this.preview();
    });
    this.details.addEventListener("toggle", () => this.show());
    this.show();
  }

  /** Fills in the plan's title, and what it costs by the price book that is open; what was written there stays. */
  show(): void {
    const isOne = this.draft.options.length === 0;
    if (this.title.input.value === this.titled) this.titled = this.title.input.value = this.desk.view(undefined).title;
    if (!this.details.open) return;
    this.showOptions();
    this.showMark();
    this.shared.hidden = !this.page.hasBook();
    void this.page.hasRoom().then((hasRoom) => (this.roomShown.hidden = !hasRoom));
    this.version.hidden = this.draft.before === "";
    this.prices.element.hidden = !isOne;
    const { input } = this.prices;
    const why = isOne ? this.desk.no_total() : undefined;
    this.unpriced.textContent = why ?? "";
    this.unpriced.hidden = why === undefined;
    this.preview();
    if (input.value !== this.filled) return;
    this.filled = this.desk.price_lines(this.desk.plan_file(), this.desk.asked()).join("\n");
    input.value = this.filled;
    input.rows = Math.max(3, Math.min(12, this.filled.split("\n").length));
  }

  /** Another plan is at work: title and prices that were written for the one before are not for this one. */
  another(): void {
    this.inRoom.checked = false;
    if (this.draft.options.length === 0) this.titled = this.title.input.value = "";
    this.filled = this.prices.input.value = "";
    this.show();
  }

  /** What is said of it. */
  stated(): Stated {
    const { value } = this.prices.input;
    return {
      title: this.title.input.value.trim() || this.desk.view(undefined).title,
      from: this.from.input.value.trim(),
      note: this.note.input.value.trim(),
      valid_until: this.until.input.value,
      prices: value === this.filled ? undefined : value.split("\n").filter((line) => line.trim() !== ""),
    };
  }

  /** Opens it, to be filled in. */
  open(): void {
    this.details.open = true;
    this.from.input.focus();
  }

  /** Suggests a number, where none is written. */
  suggest(number: string): void {
    if (this.number.input.value === "") this.number.input.value = number;
  }

  /** Begins the next version of a proposal that was sent. */
  again(before: string, number: string, options: DraftOption[], fields: Record<string, string>): void {
    this.inRoom.checked = false;
    this.draft = { ...this.draft, before, options };
    this.version.replaceChildren(`This is sent again as the next version of ${number}. `, button("Make it a new proposal", () => this.renew()));
    for (const [name, input] of Object.entries(this.inputs())) if (fields[name] !== undefined) input.value = fields[name];
    this.details.open = true;
    this.keep();
    this.show();
    this.details.scrollIntoView({ block: "start" });
    this.list.querySelector("input")?.focus({ preventScroll: true });
  }

  private renew(): void {
    this.draft = { ...this.draft, before: "" };
    this.number.input.value = "";
    this.keep();
    this.show();
    this.title.input.focus();
  }

  /** The fields of which what is written is kept. */
  private inputs(): Record<string, HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement> {
    const { title, number, client, from, contact, note, until, across } = this;
    return { title: title.input, number: number.input, client: client.input, from: from.input, contact: contact.input, note: note.input, until: until.input, across: across.input, largest: this.largest, share: this.share };
  }

  private keep(): void {
    const fields = Object.fromEntries(Object.entries(this.inputs()).map(([name, input]) => [name, input.value]));
    // The title of the plan is filled in again.
    if (fields["title"] === this.titled) delete fields["title"];
    this.draft = { ...this.draft, fields };
    keepDraft(JSON.stringify(this.draft));
  }

  private read(): void {
    try {
      const kept = { ...this.draft, ...(JSON.parse(keptDraft() ?? "{}") as Partial<Draft>) };
      for (const [name, input] of Object.entries(this.inputs())) {
        const value = kept.fields[name];
        if (typeof value === "string" && value !== "") input.value = value;
      }
      // Options whose plan can't be read any more are left out.
      kept.options = kept.options.filter(({ plan }) => isReadable(this.desk, plan));
      this.draft = kept;
      if (kept.before !== "") this.version.replaceChildren("This is sent again as the next version of the proposal you sent before. ", button("Make it a new proposal", () => this.renew()));
    } catch {
      // It was no draft of ours.
    }
  }

  private add({ plan, with: asked }: { plan: string; with: string[] }): void {
    const most = this.core.Desk.most_options();
    if (this.draft.options.length >= most) {
      this.page.say(`A proposal takes ${most} options. Remove one first.`);
      return;
    }
    const name = capital(this.desk.apart([plan])[0] ?? "");
    this.draft.options.push({ name, plan, with: asked, apart: "" });
    this.keep();
    this.show();
    this.list.querySelector<HTMLInputElement>("li:last-child input")?.focus();
    this.page.say(`Option ${this.draft.options.length} of the proposal: ${inShort(name)}.`);
  }

  private async addKept(): Promise<void> {
    const id = this.keptPlans.value;
    this.keptPlans.selectedIndex = 0;
    const entry = (await keptEntries()).find((entry) => entry.id === id);
    if (entry) this.add({ plan: entry.text, with: [] });
  }

  private showOptions(): void {
    const { options } = this.draft;
    const had = this.list.contains(document.activeElement) ? document.activeElement?.getAttribute("data-part") : undefined;
    const apart = options.length === 0 ? [] : this.desk.apart(options.map(({ plan }) => plan));
    const rows = options.map((option, index) => this.option(option, index, apart[index] ?? ""));
    this.list.replaceChildren(...rows);
    if (rows.length === 0) this.list.append(make("li", { class: "only" }, "The plan you have open, and no other. Add two or more to let your client choose."));
    if (had) this.list.querySelector<HTMLElement>(`[data-part="${had}"]`)?.focus();
    void this.offerKept();
  }

  private async offerKept(): Promise<void> {
    const entries = await keptEntries();
    this.keptPlans.hidden = entries.length === 0;
    this.keptPlans.replaceChildren(make("option", { value: "" }, "Add a plan kept on this device…"), ...entries.map(({ id, title }) => make("option", { value: id }, title)));
  }

  private option(option: DraftOption, index: number, apart: string): HTMLElement {
    const { options } = this.draft;
    const name = make("input", { type: "text", autocomplete: "off", "aria-label": `Name of option ${index + 1}`, "data-part": `name-${index}` });
    name.value = option.name;
    name.addEventListener("input", () => (option.name = name.value));
    const own = make("input", { type: "text", autocomplete: "off", placeholder: apart, "aria-label": `What sets it apart: option ${index + 1}`, "data-part": `apart-${index}` });
    own.value = option.apart;
    own.addEventListener("input", () => (option.apart = own.value));
    const lines = this.desk.price_lines(option.plan, option.with).join("\n");
    const prices = make("textarea", { rows: "4", "aria-label": `Prices, one per line: option ${index + 1}`, "data-part": `prices-${index}` });
    prices.value = option.prices?.join("\n") ?? lines;
    prices.addEventListener("input", () => {
      if (prices.value === lines) delete option.prices;
      else option.prices = prices.value.split("\n").filter((line) => line.trim() !== "");
    });
    const act = (words: string, part: string, does: () => void): HTMLButtonElement => button(words, does, { "aria-label": `${words}: option ${index + 1}`, "data-part": `${part}-${index}` });
    const move = act("Earlier", "earlier", () => {
      const before = options[index - 1];
      if (before === undefined) return;
      options.splice(index - 1, 2, option, before);
      this.ordered(`${inShort(option.name)} is option ${index} now.`);
      this.list.querySelector<HTMLElement>(`[data-part="earlier-${index - 1}"]`)?.focus();
    });
    // It keeps the focus: a button that is disabled would lose it.
    move.setAttribute("aria-disabled", String(index === 0));
    const remove = act("Remove", "remove", () => {
      options.splice(index, 1);
      this.ordered(`Removed from the proposal: ${inShort(option.name)}.`);
    });
    const more = make("details", { open: this.unfolded.has(option) }, make("summary", {}, "Prices, and what sets it apart"), make("label", { class: "line" }, make("span", {}, "What sets it apart"), own), make("label", { class: "line" }, make("span", {}, "Prices, one per line"), prices));
    more.addEventListener("toggle", () => void (more.open ? this.unfolded.add(option) : this.unfolded.delete(option)));
    return make("li", {}, name, more, move, remove);
  }

  private ordered(said: string): void {
    this.keep();
    this.show();
    this.page.stated();
    this.page.say(said);
  }

  /** Shows the sender's mark, and chooses another. */
  private showMark(): void {
    const file = make("input", { type: "file", accept: "image/*", "aria-label": "A picture of your mark" });
    file.addEventListener("change", () => {
      const chosen = file.files?.[0];
      if (chosen) void this.takeMark(chosen);
    });
    const { emblem } = this.draft;
    const shown = emblem === "" ? [] : [make("img", { src: `data:image/jpeg;base64,${emblem}`, alt: "Your mark", class: "emblem" }), button("Without a mark", () => this.setMark(""))];
    this.mark.replaceChildren("A picture of your mark, shown at the top: ", file, " ", ...shown);
  }

  private async takeMark(file: File): Promise<void> {
    try {
      this.setMark(await this.page.filed(file, MARK_PX));
    } catch (error) {
      this.page.say(reason(error));
    }
  }

  private setMark(emblem: string): void {
    this.draft = { ...this.draft, emblem };
    this.keep();
    this.show();
  }

  /** Shows what goes along a moment after the last change: pictures are reduced for it. */
  private preview(): void {
    clearTimeout(this.due);
    if (!this.details.open) return;
    this.due = setTimeout(() => void this.showAlong(), 500);
  }

  private async showAlong(): Promise<void> {
    const turn = ++this.turn;
    try {
      const { along } = await this.make();
      if (turn !== this.turn) return;
      this.along.replaceChildren(make("p", {}, "What goes along in the file, and nothing else:"), make("ul", {}, ...along.map((line) => make("li", {}, `${line}.`))));
    } catch (error) {
      this.along.replaceChildren(make("p", { class: "note" }, `It can't be sent yet: ${reason(error)}.`));
    }
  }

  private async make(): Promise<MadeView> {
    const { desk, page } = this;
    const across = this.across.input.value;
    const marked = ({ data, width, height }: ImageData): ImageData => new ImageData(new Uint8ClampedArray(this.core.Desk.across(new Uint8Array(data.buffer), width, height, across)), width, height);
    const filing: Filing = { largest: Number(this.largest.value), ...(across.trim() === "" ? {} : { marked }) };
    const { title, from, note, valid_until } = this.stated();
    const inRoom = async (plan: string): Promise<string> => (this.inRoom.checked && !this.roomShown.hidden && (await page.inRoom(plan))) || "";
    const only = async (): Promise<OptionStated> => ({ name: "", plan: await page.fullPlan(filing), with: desk.asked(), prices: this.stated().prices, apart: "", in_room: await inRoom(desk.plan_file()) });
    const options: OptionStated[] = [];
    for (const { plan, ...option } of this.draft.options) options.push({ prices: undefined, ...option, plan: await page.fullOf(plan, filing), in_room: await inRoom(plan) });
    const stated: ProposalStated = {
      number: this.number.input.value.trim(),
      title,
      from,
      contact: this.contact.input.value,
      emblem: this.draft.emblem,
      client: this.client.input.value.trim(),
      date: today(),
      note,
      address: pageAddress(),
      valid_until,
      options: options.length === 0 ? [await only()] : options,
      book: page.hasBook() ? this.share.value : "none",
      before: this.draft.before,
      stock: page.stock(),
    };
    return desk.proposal(stated);
  }

  private async savePaper(): Promise<void> {
    try {
      const { text } = await this.make();
      // Whoever works in inches prints on letter.
      const file = this.desk.proposal_paper(text, this.desk.view(undefined).units === "inches");
      this.page.save(`${this.stated().title}, proposal.pdf`, new Blob([file as Uint8Array<ArrayBuffer>], { type: "application/pdf" }));
      this.page.say("The proposal is saved as a PDF: a page that compares the options, and a page for each.");
    } catch (error) {
      this.page.say(`The proposal was not saved: ${reason(error)}.`);
    }
  }

  private async save(): Promise<void> {
    try {
      const { block, text } = await this.make();
      const { title } = this.stated();
      this.page.save(`${title}.html`, await pageWith(title, block));
      this.page.sent(text);
      this.page.say("The proposal is saved. Open it once yourself before you send it.");
    } catch (error) {
      this.page.say(`The proposal was not saved: ${reason(error)}.`);
    }
  }
}

function isReadable(desk: Desk, plan: string): boolean {
  try {
    desk.mark_of(plan);
    return true;
  } catch {
    return false;
  }
}
