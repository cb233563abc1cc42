// Keeping the plan at work on this machine: at once on every change, and in the list of plans a moment later.

import type { PlanFacts } from "../generated/overmantel.js";
import { button } from "../page/controls.js";
import { known } from "../page/dom.js";
import { borrowed, compared, edited, firstAtWork, keptElsewhere, listed, replaced, takenUp } from "./at-work.js";
import { keepEntry, keptEntries, type KeptEntry } from "./database.js";
import { KeptList } from "./list.js";
import { currentPlan, keepPlan, keepSteps, planChanged, setCurrentPlan, whenPlanIsKeptElsewhere } from "./local.js";
import { refusal } from "./refusal.js";
import type { Compared } from "./side-by-side.js";

/** What the page does for it. */
export interface Keeping {
  /** The plan at work, as a file. */
  text(): string;
  /** The steps of this session, as a text. */
  steps(): string;
  /** What a plan file says of itself; throws where it can't be read. */
  facts(text: string): PlanFacts;
  /** Opens a kept plan; says what is wrong, or nothing. */
  open(entry: KeptEntry): void;
  /** A plan file as a copy of it, under another title. */
  copyOf(text: string): string;
  /** Shows two or three plans side by side, or none. */
  compare(plans: Compared[]): void;
  /** Something to say in the line below the drawing. */
  say(text: string): void;
}

/** Keeps plans. */
export class KeptPlans {
  private readonly list: KeptList;
  private readonly latest = known("latest");
  private state = firstAtWork(currentPlan(), planChanged() ?? 0);
  private due = 0;
  /** What there is to say of what can't be kept; nothing where all is kept. */
  trouble = "";
  /** Whether the last change could be kept at once. */
  private isKept = true;
  /** Until then it is not known whether the list has a later form of the plan at work. */
  private taken = Promise.resolve();

  constructor(private readonly page: Keeping) {
    this.list = new KeptList(page, {
      current: () => this.state.id,
      isKept: () => this.isKept,
      settle: () => this.settle(),
      enter: (text) => this.enter(text, freshId(), Date.now()),
    });
    whenPlanIsKeptElsewhere((text, id) => {
      if (text === page.text()) return;
      const before = this.state;
      this.state = keptElsewhere(before, id, freshId());
      if (this.state !== before) page.say("Another window is changing this plan too. What you change here is kept as a separate plan.");
    });
  }

  /** Whether the plan at work is a link's. */
  get isBorrowed(): boolean {
    return this.state.own !== undefined;
  }

  /** Keeps the plan at work: at once where a crash can't reach it, and in the list a moment later. */
  keep(): void {
    const before = this.state;
    this.state = edited(before, this.page.text(), Date.now(), freshId());
    if (this.state === before) return;
    if (before.own !== undefined) history.replaceState(null, "", location.href.split("#")[0]);
    // The window in which something is changed last is the one that the next start goes on with.
    setCurrentPlan(this.state.id);
    // While changes go on, too: where the whole browser is killed, what it would have kept at once is lost.
    this.due ||= setTimeout(() => void this.enlist(), 400);
    this.isKept = keepPlan(this.page.text(), this.state.changed);
    this.latest.replaceChildren();
  }

  /** Where nothing could be taken up, offers the plan of the list that was changed last: a browser that was killed forgets what it kept at once. */
  async offerLatest(): Promise<void> {
    const entry = (await keptEntries())[0];
    if (entry === undefined || this.state.id !== null) return;
    const when = new Date(entry.changed).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
    this.latest.replaceChildren(`Your last plan on this device is ${entry.title}, changed ${when}. `, button("Open it", () => this.page.open(entry)));
  }

  /** Puts the plan at work into the list, and says what of it can't be kept: once, not with every change. */
  private async enlist(): Promise<void> {
    keepSteps(this.page.steps());
    const isListed = await this.settle();
    const only = this.isKept ? `Only the plan you have open is kept: ${refusal()}. Save it as a file before you open another.` : `The plan is not kept: ${refusal()}. Save it as a file.`;
    const trouble = isListed ? "" : only;
    if (trouble === this.trouble) return;
    this.trouble = trouble;
    this.page.say(trouble);
  }

  /** The plan of a link comes to work: it is kept when it is changed, and the user's own stays as it is. */
  borrow(own: string): void {
    this.state = borrowed(this.state, own);
  }

  /** Puts what is not in the list yet into it; false where that can't be. */
  async settle(): Promise<boolean> {
    clearTimeout(this.due);
    this.due = 0;
    await this.taken;
    const { isDue, id, changed } = this.state;
    if (!isDue) return true;
    const isKept = await this.enter(this.page.text(), id ?? freshId(), changed);
    if (isKept) this.state = listed(this.state, changed);
    await this.list.show();
    return isKept;
  }

  private enter(text: string, id: string, changed: number): Promise<boolean> {
    return keepEntry({ id, title: this.page.facts(text).title, text, changed });
  }

  /** Takes up the plan of last time: what a crash kept from the list comes into it. Any other is none of the list until it is changed. */
  takeUp(wasKept: boolean): void {
    this.state = takenUp(this.state, wasKept, freshId());
    setCurrentPlan(this.state.id);
    if (!wasKept) return;
    this.taken = this.compareWithList();
    void this.taken.then(() => this.settle());
  }

  /** Where the list has a later form of the plan than what could be kept at once, that one is taken to work. */
  private async compareWithList(): Promise<void> {
    const atOnce = planChanged();
    const entry = (await keptEntries()).find(({ id }) => id === this.state.id);
    const { state, opens } = compared(this.state, atOnce, entry?.changed, freshId());
    if (state.id !== this.state.id) setCurrentPlan(state.id);
    this.state = state;
    // Opening waits until this is settled.
    if (opens && entry !== undefined) setTimeout(() => this.page.open(entry));
  }

  /** Another plan has come to work: one of the list, or one that is new. */
  changeTo(id: string | null): void {
    this.state = replaced(this.state, id, Date.now());
    setCurrentPlan(id);
    keepPlan(this.page.text(), this.state.changed);
    this.latest.replaceChildren();
    void this.list.show();
  }
}

function freshId(): string {
  return [...crypto.getRandomValues(new Uint32Array(3))].map((part) => part.toString(36)).join("-");
}
