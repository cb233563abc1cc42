// What goes out and what comes back: links, proposals and answers, and what they do to the plan at work.

import type { Desk } from "../generated/overmantel.js";
import { keptEntries, type KeptEntry } from "../kept/database.js";
import type { KeptPlans } from "../kept/kept.js";
import { keepLink, keptLink } from "../kept/local.js";
import { reason } from "../page/error.js";
import type { Core } from "../start/core.js";
import { demoTexts } from "../start/demo.js";
import { Answers, type Answered } from "./answer.js";
import { Links } from "./link.js";
import { ProposalForm } from "./proposal-form.js";
import { proposalInside, ProposalSheet, type Reading } from "./proposal-sheet.js";
import { SentList } from "./sent.js";

/** What the page does for it. */
export interface Receiving extends Omit<Reading, "sent">, Answered {
  kept: KeptPlans;
  /** Tells the specification in short: whoever gets something is no maker yet. */
  inShort(): void;
  /** Takes a kept plan to work. */
  openKept(entry: KeptEntry): Promise<void>;
  /** What to say of pictures that are not here. */
  missing(): string[];
}

/** The ways out and in. */
export class Sending {
  private readonly links: Links;
  private readonly answers: Answers;
  private readonly form: ProposalForm;
  private readonly list: SentList;
  /** The proposal inside this page, where there is one. */
  private sheet: ProposalSheet | undefined;

  constructor(
    private readonly core: Core,
    private readonly desk: Desk,
    private readonly page: Receiving,
  ) {
    this.links = new Links(desk, { open: (text) => void this.open(text), say: (text) => page.say(text) });
    this.answers = new Answers(core, desk, page);
    this.form = new ProposalForm(core, desk, { ...page, sent: (proposal) => void this.list.enter(proposal) });
    this.list = new SentList(core, desk, this.form, { answers: (entry) => this.answers.showFor(entry), say: page.say });
    addEventListener("hashchange", () => void this.begin());
    const sketched = keptLink();
    if (sketched !== null) desk.take_sketches(sketched);
  }

  /** Shows what there is of the plan as it is now. */
  show(): void {
    this.links.show();
    this.form.show();
    this.sheet?.follow();
  }

  /** What is said of a proposal, or where that is filled in. */
  get proposed(): ProposalForm {
    return this.form;
  }

  /** Opens what the page was opened with: the proposal inside it, or the plan of its address. Whether there was one. */
  async begin(isStart = false): Promise<boolean> {
    if (isStart && (await this.openInside())) return true;
    if (location.hash.length < 2) return false;
    const asked = new URLSearchParams(location.hash.slice(1));
    return asked.has("work") ? this.openWork(asked) : this.open(location.hash);
  }

  /** Shows the proposal that lies in this page, if one does; one's own plan is kept as it is. */
  private async openInside(): Promise<boolean> {
    const { desk, page } = this;
    try {
      const opened = proposalInside(this.core);
      if (opened === undefined) return false;
      const sheet = new ProposalSheet(this.core, desk, opened, { ...page, sent: () => undefined });
      const isKept = await page.kept.settle();
      const own = desk.plan_file();
      if (isKept) page.kept.borrow(own);
      page.inShort();
      await sheet.begin();
      this.sheet = sheet;
      document.title = sheet.title;
    } catch (error) {
      page.say(`The proposal in this file can't be opened: ${reason(error)}.`);
    }
    return true;
  }

  /** Shows a work of this page on a wall, as its address asks for it; one's own plan is kept as it is. */
  private async openWork(asked: URLSearchParams): Promise<boolean> {
    const { desk, page } = this;
    const of = (name: string): string => asked.get(name) ?? "";
    try {
      const plan = desk.addressed([...demoTexts(), desk.plan_file()], of("work"), of("size"), of("wall"));
      const isKept = await page.kept.settle();
      const own = desk.plan_file();
      const { error } = desk.open(plan);
      if (error !== undefined) throw new Error(error);
      if (isKept) page.kept.borrow(own);
    } catch (error) {
      page.say(`The address can't be followed: ${reason(error)}.`);
      return false;
    }
    page.inShort();
    await page.shown();
    page.say("This work came with the address. Your own plan is kept as it was; undo brings it back. Change its size, its frame and your wall.");
    return true;
  }

  /** Shows the plan of a link, as a step that can be undone; one's own is kept as it is. */
  async open(text: string): Promise<boolean> {
    const { desk, page } = this;
    if (await this.openAnswer(text)) return true;
    const isKept = await page.kept.settle();
    const own = desk.plan_file();
    const opened = desk.open_link(text);
    if (opened.error !== undefined) {
      page.say(`The link can't be opened: ${opened.error}.`);
      return false;
    }
    if (isKept) page.kept.borrow(own);
    keepLink(text);
    page.inShort();
    await page.shown();
    const sketched = opened.sketched.filter((name) => desk.is_sketched(name));
    const said = [
      "This plan came with the link. Your own is kept as it was; undo brings it back.",
      sketched.length > 0 ? `The link has only the colours or a rough sketch of ${sketched.join(", ")}.` : "",
      opened.told === undefined ? "" : `Note: ${opened.told}.`,
      ...page.missing(),
    ];
    page.say(said.filter(Boolean).join(" "));
    return true;
  }

  /** Sets an answer beside the plan that it answers; whether the link is one. */
  private async openAnswer(text: string): Promise<boolean> {
    const { desk, page } = this;
    let came;
    try {
      came = desk.look_at(text);
    } catch {
      // It is said when it is opened.
      return false;
    }
    if (came.answer === undefined) return false;
    const { to } = came.answer;
    const entry = await this.list.answered(text, came.answer);
    if (entry !== undefined) {
      this.answers.showFor(entry);
      return true;
    }
    let isFound = desk.mark() === to;
    if (!isFound) {
      const sent = (await keptEntries()).find((entry) => this.isMarked(entry, to));
      if (sent !== undefined) await page.openKept(sent);
      isFound = sent !== undefined;
    }
    this.answers.show(came, !isFound);
    return true;
  }

  private isMarked(entry: KeptEntry, mark: number): boolean {
    try {
      return this.desk.mark_of(entry.text) === mark;
    } catch {
      return false;
    }
  }
}
