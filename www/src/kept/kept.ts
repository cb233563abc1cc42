// Plans kept on this machine: the one at work on every change, and the list from which they are opened, doubled and given up.

import { known, make } from "../page/dom.js";
import { currentPlan, dropEntry, keepEntry, keepPlan, keptEntries, planChanged, refusal, setCurrentPlan, sweepCopies, whenPlanIsKeptElsewhere, type KeptEntry } from "./store.js";

/** What the page does for it. */
export interface Keeping {
  /** The plan at work, as a file. */
  text(): string;
  /** Opens a kept plan; says what is wrong, or nothing. */
  open(entry: KeptEntry): void;
  /** A plan file as a copy of it, under another title. */
  copyOf(text: string): string;
  /** Shows two or three plans side by side, or none. */
  compare(plans: { title: string; text: string }[]): void;
  /** Something to say in the line below the drawing. */
  say(text: string): void;
}

/** The name under which the copy of a picture is kept. */
export function copyName(picture: { name: string; file: string; width_px: number; height_px: number }): string {
  return [picture.name, picture.file, picture.width_px, picture.height_px].join("\n");
}

interface PlanFile {
  title?: unknown;
  pictures?: { name: string; file: string; pixels: [number, number] }[];
}

function title(text: string): string {
  return String((JSON.parse(text) as PlanFile).title ?? "");
}

function copyNames(text: string): string[] {
  const pictures = (JSON.parse(text) as PlanFile).pictures ?? [];
  // Names alone are those of copies that were kept before there were several plans.
  return pictures.flatMap(({ name, file, pixels: [width_px, height_px] }) => [name, copyName({ name, file, width_px, height_px })]);
}

/** So many plans stand side by side at the most. */
const SIDE_BY_SIDE = 3;

/** Keeps plans, and shows those that are kept. */
export class KeptPlans {
  private readonly details = known<HTMLDetailsElement>("kept");
  private readonly list = make("ul", {});
  /** What was given up since the page was opened: it can be had back. */
  private readonly given = new Map<string, KeptEntry>();
  /** Which are to be seen side by side, in the order in which they were ticked. */
  private ticked: string[] = [];
  private due = 0;
  /** The user's own plan, while that of a link is at work and has not been changed. */
  private own: string | undefined;
  /** Whether the plan at work has changes that are not in the database yet. */
  private isDue = false;
  /** What there is to say of what can't be kept; nothing where all is kept. */
  trouble = "";
  /** Whether the last change could be kept at once. */
  private isKept = true;
  /** Which of the kept plans is at work in this window. */
  private id = currentPlan();
  /** When the plan at work was changed last. */
  private changed = planChanged() ?? 0;
  /** Whether another window has changed the plan at work. */
  private isElsewhere = false;
  /** Until then it is not known whether the list has a later form of the plan at work. */
  private taken = Promise.resolve();

  constructor(private readonly page: Keeping) {
    this.details.append(this.list);
    this.details.addEventListener("toggle", () => void this.show());
    whenPlanIsKeptElsewhere((text, id) => {
      if (this.isElsewhere || this.id === null || id !== this.id || text === page.text()) return;
      // What is not in the list yet does not go over what the other window keeps.
      if (this.isDue) this.id = freshId();
      else this.isElsewhere = true;
      page.say("This plan is being changed in another window. What you change here is kept as a plan beside it.");
    });
  }

  /** Says which of the kept plans is at work, or none. */
  private setId(id: string | null): void {
    this.isElsewhere = false;
    this.id = id;
    setCurrentPlan(id);
  }

  /** Keeps the plan at work: at once where a crash can't reach it, and in the list a moment later. */
  keep(): void {
    if (this.own !== undefined) {
      // Back at one's own plan, it is the one that is kept already; the link's own, once changed, is a plan beside it.
      if (this.page.text() === this.own) return;
      this.own = undefined;
      this.id = null;
      history.replaceState(null, "", location.href.split("#")[0]);
    }
    // The window in which something is changed last is the one that the next start goes on with.
    this.setId(this.id === null || this.isElsewhere ? freshId() : this.id);
    this.isDue = true;
    this.mark();
    // While changes go on, too: where the whole browser is killed, what it would have kept at once is lost.
    this.due ||= setTimeout(() => void this.enlist(), 400);
    this.isKept = keepPlan(this.page.text(), this.changed);
  }

  /** Puts the plan at work into the list, and says what of it can't be kept: once, not with every change. */
  private async enlist(): Promise<void> {
    const isListed = await this.settle();
    const only = this.isKept ? `Only the plan at work is kept: ${refusal()}. Save it as a file before you open another.` : `The plan is not kept: ${refusal()}. Save it as a file.`;
    const trouble = isListed ? "" : only;
    if (trouble === this.trouble) return;
    this.trouble = trouble;
    this.page.say(trouble);
  }

  /** The plan at work is changed now; a clock that is set back does not make it older. */
  private mark(): void {
    this.changed = Math.max(Date.now(), this.changed + 1);
  }

  /** The plan of a link comes to work: it is kept when it is changed, and the user's own stays as it is. */
  borrow(own: string): void {
    this.own ??= own;
  }

  /** Whether the plan at work is a link's. */
  get isBorrowed(): boolean {
    return this.own !== undefined;
  }

  /** Puts what is not in the list yet into it; false where that can't be. */
  async settle(): Promise<boolean> {
    clearTimeout(this.due);
    this.due = 0;
    await this.taken;
    if (!this.isDue) return true;
    const { changed } = this;
    const kept = await this.enter(this.page.text(), this.id ?? freshId(), changed);
    // What was changed meanwhile is still to come.
    if (kept && this.changed === changed) this.isDue = false;
    await this.show();
    return kept;
  }

  private enter(text: string, id: string, changed: number): Promise<boolean> {
    return keepEntry({ id, title: title(text), text, changed });
  }

  /** Takes up the plan of last time: what a crash kept from the list comes into it. Any other is none of the list until it is changed. */
  takeUp(wasKept: boolean): void {
    if (!wasKept) {
      this.setId(null);
      return;
    }
    this.setId(this.id ?? freshId());
    this.taken = this.compareWithList();
    void this.taken.then(() => this.settle());
  }

  /** Where the list has a later form of the plan than what could be kept at once, that one is taken to work. */
  private async compareWithList(): Promise<void> {
    const at = planChanged();
    const listed = (await keptEntries()).find(({ id }) => id === this.id);
    if (at === undefined || listed === undefined || listed.changed <= at) {
      this.isDue = true;
    } else if (this.isDue) {
      // What was changed in this very moment is a plan beside it.
      this.setId(freshId());
    } else {
      // Opening waits until this is settled.
      setTimeout(() => this.page.open(listed));
    }
  }

  /** Another plan has come to work: one of the list, or one that is new. */
  changeTo(id: string | null): void {
    this.own = undefined;
    this.setId(id);
    this.mark();
    keepPlan(this.page.text(), this.changed);
    this.isDue = false;
    void this.show();
  }

  private async show(): Promise<void> {
    if (!this.details.open) return;
    const had = this.list.contains(document.activeElement) ? document.activeElement?.getAttribute("aria-label") : undefined;
    const current = this.id;
    const entries = await keptEntries();
    const rows = entries.map((entry) => this.row(entry, entry.id === current));
    const given = [...this.given.values()].map((entry) =>
      make("li", {}, `${entry.title}, given up. `, button("Bring it back", `Bring back ${entry.title}`, () => this.bringBack(entry))),
    );
    this.list.replaceChildren(...rows, ...given);
    if (rows.length + given.length === 0) this.list.append(make("li", {}, this.isKept ? "None yet: a plan is kept as soon as it is changed." : `None: ${refusal()}.`));
    this.compare(entries);
    if (had !== undefined) [...this.list.querySelectorAll("button, input")].filter((one) => one instanceof HTMLElement).find((one) => one.getAttribute("aria-label") === had)?.focus();
  }

  private row(entry: KeptEntry, isCurrent: boolean): HTMLElement {
    const when = new Date(entry.changed).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
    const name = isCurrent ? make("strong", { "aria-current": "true" }, entry.title) : button(entry.title, `Open ${entry.title}`, () => this.page.open(entry));
    const parts: (Node | string)[] = [name, " ", make("small", {}, isCurrent ? "at work now" : when), " ", button("Duplicate", `Duplicate ${entry.title}`, () => this.double(entry))];
    if (!isCurrent) parts.push(" ", button("Give up", `Give up ${entry.title}`, () => this.giveUp(entry)));
    parts.push(" ", this.tick(entry));
    return make("li", {}, ...parts);
  }

  private tick({ id, title }: KeptEntry): HTMLElement {
    const box = make("input", { type: "checkbox", "aria-label": `Side by side: ${title}` });
    box.checked = this.ticked.includes(id);
    box.disabled = !box.checked && this.ticked.length >= SIDE_BY_SIDE;
    box.addEventListener("change", () => {
      this.ticked = box.checked ? [...this.ticked, id] : this.ticked.filter((one) => one !== id);
      if (box.checked && this.ticked.length === 1 && id === this.id) this.page.say("Tick another plan to see it beside this one.");
      void this.show();
    });
    return make("label", {}, box, "side by side");
  }

  /** Shows what is ticked side by side; one alone stands beside the plan at work. */
  private compare(entries: KeptEntry[]): void {
    this.ticked = this.ticked.filter((id) => entries.some((entry) => entry.id === id));
    const current = this.id;
    const text = this.page.text();
    const atWork = { title: title(text), text };
    const plans = this.ticked.flatMap((id) => (id === current ? [atWork] : entries.filter((entry) => entry.id === id).map(({ title, text }) => ({ title, text }))));
    if (plans.length === 1 && this.ticked[0] !== current) plans.unshift(atWork);
    this.page.compare(plans.length > 1 ? plans : []);
  }

  private async double(entry: KeptEntry): Promise<void> {
    await this.settle();
    const text = entry.id === this.id ? this.page.text() : entry.text;
    const copy = this.page.copyOf(text);
    const kept = await this.enter(copy, freshId(), Date.now());
    this.page.say(kept ? `${title(copy)} is kept.` : `The copy is not kept: ${refusal()}. Save the plan as a file.`);
    await this.show();
  }

  private async giveUp(entry: KeptEntry): Promise<void> {
    if (!(await dropEntry(entry.id))) return;
    this.given.set(entry.id, entry);
    this.page.say(`${entry.title} is given up; until the page is closed it can be brought back.`);
    const texts = [...(await keptEntries()), ...this.given.values()].map(({ text }) => text);
    await sweepCopies(new Set([...texts, this.page.text()].flatMap(copyNames)));
    await this.show();
  }

  private async bringBack(entry: KeptEntry): Promise<void> {
    if (!(await keepEntry(entry))) return;
    this.given.delete(entry.id);
    this.page.say(`${entry.title} is kept again.`);
    await this.show();
  }
}

function button(words: string, label: string, act: () => void): HTMLButtonElement {
  const made = make("button", { type: "button", "aria-label": label }, words);
  made.addEventListener("click", act);
  return made;
}

function freshId(): string {
  return [...crypto.getRandomValues(new Uint32Array(3))].map((part) => part.toString(36)).join("-");
}
