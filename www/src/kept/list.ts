// The list of the plans that are kept on this machine, from which they are opened, duplicated, deleted and compared.

import { button } from "../page/controls.js";
import { known, make } from "../page/dom.js";
import { inShort } from "../page/saying.js";
import { copyName } from "../pictures/copies.js";
import { dropEntry, keepEntry, keptEntries, sweepCopies, type KeptEntry } from "./database.js";
import type { Keeping } from "./kept.js";
import { refusal } from "./refusal.js";

/** What keeps the plan at work. */
export interface Keeper {
  /** Which of the kept plans is at work. */
  current(): string | null;
  /** Whether the last change could be kept at once. */
  isKept(): boolean;
  /** Puts what is not in the list yet into it. */
  settle(): Promise<boolean>;
  /** Puts a new plan into the list; false where that can't be. */
  enter(text: string): Promise<boolean>;
}

/** So many plans stand side by side at the most. */
const SIDE_BY_SIDE = 3;

/** Shows the plans that are kept. */
export class KeptList {
  private readonly details = known<HTMLDetailsElement>("kept");
  private readonly list = make("ul", {});
  /** What was deleted since the page was opened: undo brings it back. */
  private readonly given = new Map<string, KeptEntry>();
  /** Which are to be seen side by side, in the order in which they were ticked. */
  private ticked: string[] = [];

  constructor(
    private readonly page: Keeping,
    private readonly keeper: Keeper,
  ) {
    this.details.append(this.list);
    this.details.addEventListener("toggle", () => void this.show());
  }

  /** Shows them as they are now, if the list is open. */
  async show(): Promise<void> {
    if (!this.details.open) return;
    const had = this.list.contains(document.activeElement) ? document.activeElement?.getAttribute("aria-label") : undefined;
    const current = this.keeper.current();
    const entries = await keptEntries();
    const rows = entries.map((entry) => this.row(entry, entry.id === current));
    const given = [...this.given.values()].map((entry) =>
      make("li", {}, `${entry.title} is deleted. `, act("Undo", `Undo: bring back ${entry.title}`, () => this.bringBack(entry))),
    );
    this.list.replaceChildren(...rows, ...given);
    if (rows.length + given.length === 0) this.list.append(make("li", {}, this.keeper.isKept() ? "None yet: a plan is kept as soon as you change it." : `None: ${refusal()}.`));
    this.compare(entries);
    if (had !== undefined) [...this.list.querySelectorAll("button, input")].filter((one) => one instanceof HTMLElement).find((one) => one.getAttribute("aria-label") === had)?.focus();
  }

  private row(entry: KeptEntry, isCurrent: boolean): HTMLElement {
    const when = new Date(entry.changed).toLocaleString(undefined, { dateStyle: "medium", timeStyle: "short" });
    const name = isCurrent ? make("strong", { "aria-current": "true" }, entry.title) : act(entry.title, `Open ${entry.title}`, () => this.page.open(entry));
    const parts: (Node | string)[] = [name, " ", make("small", {}, isCurrent ? "open now" : when), " ", act("Duplicate", `Duplicate ${entry.title}`, () => this.double(entry))];
    if (!isCurrent) parts.push(" ", act("Delete", `Delete ${entry.title}`, () => this.giveUp(entry)));
    parts.push(" ", this.tick(entry));
    return make("li", {}, ...parts);
  }

  private tick({ id, title }: KeptEntry): HTMLElement {
    const box = make("input", { type: "checkbox", "aria-label": `Side by side: ${title}` });
    box.checked = this.ticked.includes(id);
    box.disabled = !box.checked && this.ticked.length >= SIDE_BY_SIDE;
    box.addEventListener("change", () => {
      this.ticked = box.checked ? [...this.ticked, id] : this.ticked.filter((one) => one !== id);
      if (box.checked && this.ticked.length === 1 && id === this.keeper.current()) this.page.say("Tick another plan to see it beside this one.");
      void this.show();
    });
    return make("label", {}, box, "side by side");
  }

  /** Shows what is ticked side by side; one alone stands beside the plan at work. */
  private compare(entries: KeptEntry[]): void {
    this.ticked = this.ticked.filter((id) => entries.some((entry) => entry.id === id));
    const current = this.keeper.current();
    const text = this.page.text();
    const atWork = { title: this.page.facts(text).title, text };
    const plans = this.ticked.flatMap((id) => (id === current ? [atWork] : entries.filter((entry) => entry.id === id).map(({ title, text }) => ({ title, text }))));
    if (plans.length === 1 && this.ticked[0] !== current) plans.unshift(atWork);
    this.page.compare(plans.length > 1 ? plans : []);
  }

  private async double(entry: KeptEntry): Promise<void> {
    await this.keeper.settle();
    const text = entry.id === this.keeper.current() ? this.page.text() : entry.text;
    const copy = this.page.copyOf(text);
    const isKept = await this.keeper.enter(copy);
    this.page.say(isKept ? `${inShort(this.page.facts(copy).title)} is kept.` : `The copy is not kept: ${refusal()}. Save the plan as a file.`);
    await this.show();
  }

  private async giveUp(entry: KeptEntry): Promise<void> {
    if (!(await dropEntry(entry.id))) return;
    this.given.set(entry.id, entry);
    this.page.say(`${inShort(entry.title)} is deleted. Undo in the list brings it back until you close this page.`);
    const texts = [...(await keptEntries()), ...this.given.values()].map(({ text }) => text);
    await this.sweep([...texts, this.page.text()]);
    await this.show();
  }

  /** Deletes the copies of pictures that none of these plans names. */
  private async sweep(texts: string[]): Promise<void> {
    try {
      const pictures = texts.flatMap((text) => this.page.facts(text).pictures);
      // Names alone are those of copies that were kept before there were several plans.
      await sweepCopies(new Set(pictures.flatMap((picture) => [picture.name, copyName(picture)])));
    } catch {
      // A plan that can't be read may name any of them: all stay.
    }
  }

  private async bringBack(entry: KeptEntry): Promise<void> {
    if (!(await keepEntry(entry))) return;
    this.given.delete(entry.id);
    this.page.say(`${inShort(entry.title)} is back.`);
    await this.show();
  }
}

function act(words: string, label: string, does: () => void): HTMLButtonElement {
  return button(words, does, { "aria-label": label });
}
