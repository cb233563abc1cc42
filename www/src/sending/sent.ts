// The proposals that were sent: kept on this machine, with the answers that came, their state, and saved or read as one file.

import type { Desk, SentView } from "../generated/overmantel.js";
import { dropSent, keepSent, keptSent, type KeptSent } from "../kept/database.js";
import { refusal } from "../kept/refusal.js";
import { button } from "../page/controls.js";
import { known, make } from "../page/dom.js";
import { reason } from "../page/error.js";
import { save } from "../page/file.js";
import { inShort } from "../page/saying.js";
import { today } from "../page/today.js";
import type { Core } from "../start/core.js";
import type { ProposalForm } from "./proposal-form.js";

/** What the page does for it. */
export interface SentPage {
  /** Shows the answers to a proposal. */
  answers(entry: KeptSent): void;
  /** Something to say in the line below the drawing. */
  say(text: string): void;
}

const SETTLED = [
  ["by_answers", "as answered"],
  ["accepted", "accepted"],
  ["declined", "declined"],
] as const;

/** Shows the list. */
export class SentList {
  private readonly details = known<HTMLDetailsElement>("sent");
  private readonly list = make("ul", {});
  private readonly wanted = make("input", { type: "search", autocomplete: "off", "aria-label": "Find proposals by number, client, title, option, state or date", placeholder: "number, client, title, state…" });
  private readonly order = make("select", { "aria-label": "Order of the list" });
  private readonly looked = make("p", { class: "looked" }, this.wanted, this.order);
  /** What the list says of each, and of what: reading a proposal takes its time. */
  private readonly views = new Map<string, { of: KeptSent; day: string; view: SentView }>();
  /** What was deleted since the page was opened: undo brings it back. */
  private readonly given = new Map<string, { entry: KeptSent; name: string }>();

  constructor(
    private readonly core: Core,
    private readonly desk: Desk,
    private readonly form: ProposalForm,
    private readonly page: SentPage,
  ) {
    const file = make("input", { type: "file", accept: ".json,application/json", hidden: true, "aria-label": "A list of proposals" });
    file.addEventListener("change", () => {
      const chosen = file.files?.[0];
      if (chosen) void this.read(chosen);
      file.value = "";
    });
    const open = button("Read a list from a file", () => file.click());
    this.details.append(
      make("p", {}, "Each proposal you save is listed here, on this device. Open an answer you were sent with “Open a plan file”, or paste its link or text under “Share it as a link”."),
      this.looked,
      this.list,
      make("p", {}, button("Save the list as a file", () => void this.save()), " ", open, file),
    );
    this.order.append(...core.Desk.sent_orders().map(({ key, words }) => make("option", { value: key }, words)));
    this.wanted.addEventListener("input", () => void this.show());
    this.order.addEventListener("change", () => void this.show());
    this.details.addEventListener("toggle", () => void this.show());
    // Whoever has sent nothing and makes no proposal has no use for it.
    known("propose").addEventListener("toggle", () => (this.details.hidden = false));
    void this.suggest();
  }

  /** Shows them as they are now, if the list is open. */
  async show(): Promise<void> {
    if (!this.details.open) return;
    const entries = await keptSent();
    const had = this.list.contains(document.activeElement) ? document.activeElement?.getAttribute("aria-label") : undefined;
    const viewed = entries.flatMap((entry) => {
      const view = this.view(entry);
      return view === undefined ? [] : [{ entry, view }];
    });
    const chosen = this.core.Desk.sent_chosen(viewed.map(({ view }) => view.listed), this.wanted.value, this.order.value);
    const rows = [...chosen].flatMap((place) => viewed.slice(place, place + 1)).map(({ entry, view }) => this.row(entry, view));
    this.looked.hidden = viewed.length < 2;
    const given = [...this.given.values()].map((one) => make("li", {}, `${one.name} is deleted. `, button("Undo", () => void this.bringBack(one), { "aria-label": `Undo: bring back ${one.name}` })));
    this.list.replaceChildren(...(rows.length === 0 ? [make("li", {}, viewed.length === 0 ? "None yet." : `None of the ${viewed.length} says that.`)] : rows), ...given);
    if (had) this.focusOn(had);
  }

  /** Takes a proposal that was just saved into the list. */
  async enter(proposal: string): Promise<void> {
    const entry = { proposal, answers: [], settled: "by_answers" };
    const { mark } = this.desk.sent_view(entry, today());
    const id = String(mark);
    const known = (await keptSent()).find((one) => one.id === id);
    if (!(await keepSent({ ...entry, ...known, id, sent: Date.now() }))) this.page.say(`The proposal is saved, but is not in your list: ${refusal()}.`);
    await this.show();
  }

  /** The proposal that an answer is to, with that answer in it; nothing where none of the list is. */
  async answered(text: string, answer: { proposal: number; to: number }): Promise<KeptSent | undefined> {
    for (const entry of await keptSent()) {
      const view = this.view(entry);
      const isIts = view !== undefined && (answer.proposal === 0 ? view.plans.includes(answer.to) : view.mark === answer.proposal);
      if (!isIts) continue;
      const { answers } = this.desk.with_answer(plain(entry), text);
      const next = { ...entry, answers };
      await keepSent(next);
      await this.show();
      return next;
    }
    return undefined;
  }

  /** Suggests the number after the last one. */
  private async suggest(): Promise<void> {
    const entries = await keptSent();
    if (entries.length > 0) this.details.hidden = false;
    const last = entries.map((entry) => this.view(entry)?.own_number ?? "").find((number) => number !== "");
    if (last !== undefined) this.form.suggest(this.desk.next_number(last));
  }

  private view(entry: KeptSent): SentView | undefined {
    const day = today();
    const known = this.views.get(entry.id);
    if (known?.day === day && known.of.settled === entry.settled && known.of.answers.length === entry.answers.length) return known.view;
    try {
      const view = this.desk.sent_view(plain(entry), day);
      this.views.set(entry.id, { of: entry, day, view });
      return view;
    } catch {
      return undefined;
    }
  }

  private row(entry: KeptSent, view: SentView): HTMLElement {
    const name = [view.number, view.title].filter(Boolean).join(" · ");
    const select = make("select", { "aria-label": `What became of ${name}` }, ...SETTLED.map(([value, words]) => make("option", { value }, words)));
    select.value = entry.settled;
    select.addEventListener("change", () => void this.settle(entry, select.value));
    const act = (words: string, does: () => void): HTMLButtonElement => button(words, does, { "aria-label": `${words}: ${name}` });
    const answers = view.answers.length === 0 ? [] : [act(view.answers.length === 1 ? "See the answer" : `See the ${view.answers.length} answers`, () => this.page.answers(entry))];
    const when = [view.client === "" ? "" : `for ${view.client}`, view.date, view.valid_until === "" ? "" : `valid until ${view.valid_until}`].filter(Boolean).join(", ");
    const options = view.options.filter(Boolean).map((option) => make("li", {}, option));
    return make(
      "li",
      {},
      make("strong", {}, name),
      ...(when === "" ? [] : [make("span", { class: "when" }, when)]),
      ...(options.length === 0 ? [] : [make("ul", {}, ...options)]),
      make("p", {}, make("label", {}, "State: ", make("strong", {}, view.state), " ", select), " ", ...answers, act("Send it again, changed", () => this.again(entry)), act("Delete", () => void this.giveUp(entry, name))),
    );
  }

  private async settle(entry: KeptSent, settled: string): Promise<void> {
    await keepSent({ ...entry, settled });
    await this.show();
  }

  /** Fills the form with what was sent, for the next version. */
  private again(entry: KeptSent): void {
    const opened = new this.core.OpenedProposal(entry.proposal);
    try {
      const head = opened.head(today());
      const options = opened.options(this.desk).map(({ name, plan, with: asked }) => ({ name, plan, with: asked, apart: "" }));
      const fields = { title: head.title, client: head.client, from: head.from, contact: head.contact.join("\n"), note: head.note.join("\n\n"), number: this.view(entry)?.own_number ?? "" };
      this.form.again(entry.proposal, head.number || head.title, options, fields);
    } finally {
      opened.free();
    }
  }

  private async giveUp(entry: KeptSent, name: string): Promise<void> {
    if (!(await dropSent(entry.id))) return;
    this.given.set(entry.id, { entry, name });
    this.page.say("The proposal is deleted from the list. Undo in the list brings it back until you close this page.");
    await this.show();
    this.focusOn(`Undo: bring back ${name}`);
  }

  private async bringBack({ entry, name }: { entry: KeptSent; name: string }): Promise<void> {
    if (!(await keepSent(entry))) return;
    this.given.delete(entry.id);
    this.page.say("The proposal is in the list again.");
    await this.show();
    this.focusOn(`Delete: ${name}`);
  }

  private focusOn(label: string): void {
    [...this.list.querySelectorAll<HTMLElement>("button, select")].find((one) => one.getAttribute("aria-label") === label)?.focus();
  }

  private async save(): Promise<void> {
    save("proposals sent.json", this.desk.sent_file((await keptSent()).reverse().map(plain)));
  }

  private async read(file: File): Promise<void> {
    try {
      const entries = this.desk.read_sent_file(await file.text());
      const known = new Map((await keptSent()).map((entry) => [entry.id, entry]));
      for (const [index, entry] of entries.entries()) {
        const id = String(this.desk.sent_view(entry, today()).mark);
        const here = known.get(id);
        // What is here has the answers that came here, too.
        const answers = [...new Set([...(here?.answers ?? []), ...entry.answers])];
        await keepSent({ ...entry, answers, id, sent: here?.sent ?? Date.now() + index });
      }
      this.page.say(`${inShort(file.name)} is read: ${entries.length === 1 ? "one proposal" : `${entries.length} proposals`}.`);
    } catch (error) {
      this.page.say(`${inShort(file.name)}: ${reason(error)}`);
    }
    await this.show();
  }
}

function plain({ proposal, answers, settled }: KeptSent): { proposal: string; answers: string[]; settled: string } {
  return { proposal, answers, settled };
}
