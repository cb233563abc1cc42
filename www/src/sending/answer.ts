// Answers that come back. To a plan: both on the same wall, what differs in words, and what of it is taken. To a proposal of the list:
// all its answers beside each other, with what each changed and costs; one of them becomes the plan in hand, with its papers.

import type { Desk, LookedAt } from "../generated/overmantel.js";
import type { KeptSent } from "../kept/database.js";
import { button } from "../page/controls.js";
import { known, make } from "../page/dom.js";
import { reason } from "../page/error.js";
import { today } from "../page/today.js";
import type { Core } from "../start/core.js";

/** What the page does for it. */
export interface Answered {
  /** Shows plans side by side, or none. */
  compare(plans: { title: string; text: string }[]): void;
  /** The plan at work has changed. */
  changed(): void;
  /** Takes a plan to work, as ordered by a proposal. */
  order(plan: string, title: string, reference: string): Promise<void>;
  /** Something to say in the line below the drawing. */
  say(text: string): void;
}

/** Answers that stand beside what was sent in the drawing, at the most. */
const BESIDE = 2;

/** Shows an answer beside the plan at work. */
export class Answers {
  private readonly place = known("answer");

  constructor(
    private readonly core: Core,
    private readonly desk: Desk,
    private readonly page: Answered,
  ) {}

  /** Shows what came back; `isOther` when it answers a plan that is not the one at work. */
  show(came: LookedAt, isOther: boolean): void {
    const { answer } = came;
    if (answer === undefined) return;
    const mine = this.desk.plan_file();
    const rows = this.desk.differences(mine, came.plan);
    const { changes } = this.desk.summary(mine, came.plan);
    const boxes = this.desk.parts(mine, came.plan).map((name) => ({ name, input: make("input", { type: "checkbox" }) }));
    const acts =
      rows.length === 0
        ? [make("p", {}, "The plan has not changed. ", button("Done", () => this.close()))]
        : [
            make("ul", {}, ...(changes.length === 0 ? ["Only small things changed"] : changes).map((row) => make("li", {}, `${row}.`))),
            make("details", {}, make("summary", {}, `Everything that changed: ${rows.length}`), make("ul", {}, ...rows.map((row) => make("li", {}, `${row}.`)))),
            ...(boxes.length < 2 ? [] : [make("fieldset", {}, make("legend", {}, "Take only"), ...boxes.map(({ name, input }) => make("label", {}, input, " ", name)))]),
            make(
              "p",
              {},
              button("Take all", () => this.take(came, [])),
              ...(boxes.length < 2 ? [] : [button("Take what is ticked", () => this.takeSome(came, boxes))]),
              button("Keep mine", () => this.close()),
            ),
            make("p", {}, link("See both side by side", () => known("compared").scrollIntoView({ block: "center" }))),
          ];
    this.open(
      answer.from === "" ? "An answer has come back" : `An answer from ${answer.from}`,
      ...(isOther ? [make("p", {}, "The plan it answers is not the one you have open, so you see it beside that one.")] : []),
      ...(answer.note === "" ? [] : [make("p", { class: "message" }, answer.note)]),
      make("p", {}, answer.decision),
      ...acts,
    );
    this.page.compare(rows.length === 0 ? [] : [{ title: "Mine", text: mine }, { title: "The answer", text: came.plan }]);
  }

  /** Shows all answers to a proposal that was sent. */
  showFor(entry: KeptSent): void {
    const opened = new this.core.OpenedProposal(entry.proposal);
    try {
      const head = opened.head(today());
      const options = opened.options(this.desk);
      const { book } = head;
      const came = entry.answers.map((text) => this.desk.look_at(text));
      const beside: { title: string; text: string }[] = [];
      const parts = came.flatMap((one) => {
        const { answer, plan, title } = one;
        if (answer === undefined) return [];
        const index = Math.max(answer.option, 1) - 1;
        const option = options[index];
        const quote = option && opened.quote(this.desk, index, plan);
        const who = [answer.from || "Without a name", answer.date].filter(Boolean).join(", ");
        if (option && beside.length === 0) beside.push({ title: option.name === "" ? "As it was sent" : `${option.name}, as it was sent`, text: option.plan });
        if (beside.length <= BESIDE) beside.push({ title: who, text: plan });
        const price = quote === undefined || quote.total === "" ? [] : [make("p", {}, "Price: ", make("strong", {}, quote.total))];
        const reference = option === undefined ? "" : opened.reference(index);
        const changes = quote?.changes ?? [];
        return [
          make(
            "section",
            {},
            make("h3", {}, who),
            make("p", {}, make("strong", {}, answer.decision)),
            ...(answer.note === "" ? [] : [make("p", { class: "message" }, answer.note)]),
            ...(changes.length === 0 ? [make("p", {}, "The plan has not changed.")] : [make("ul", {}, ...changes.map((row) => make("li", {}, `${row}.`)))]),
            ...price,
            ...(quote === undefined || quote.said === "" ? [] : [make("p", {}, quote.said)]),
            make(
              "p",
              {},
              button("Take it up and print its papers", () => void this.page.order(plan, title, reference)),
              ...(changes.length === 0 ? [] : [button("Take only parts of it", () => this.show(one, this.desk.mark() !== answer.to))]),
            ),
          ),
        ];
      });
      const prices = book === undefined ? [make("p", {}, "Your prices did not go along: a changed plan is priced by the price book you have open, under “Prices”.")] : [];
      this.open(`Answers to ${head.title}${head.number === "" ? "" : ` (${head.number})`}`, ...parts, ...prices, make("p", {}, button("Done", () => this.close())));
      this.page.compare(beside.length > 1 ? beside : []);
    } catch (error) {
      this.page.say(`The answers can't be shown: ${reason(error)}.`);
    } finally {
      opened.free();
    }
  }

  private open(heading: string, ...parts: Node[]): void {
    this.place.replaceChildren(make("h2", { tabindex: "-1" }, heading), ...parts);
    this.place.hidden = false;
    this.place.querySelector("h2")?.focus();
  }

  private takeSome(came: LookedAt, boxes: { name: string; input: HTMLInputElement }[]): void {
    const names = boxes.filter(({ input }) => input.checked).map(({ name }) => name);
    if (names.length === 0) this.page.say("Tick what you want to take from the answer.");
    else this.take(came, names);
  }

  /** Takes parts of the answer, or all of it, as one step. */
  private take(came: LookedAt, names: string[]): void {
    try {
      const { error } = this.desk.open(this.desk.with_parts(this.desk.plan_file(), came.plan, names));
      if (error !== undefined) throw new Error(error);
    } catch (error) {
      this.page.say(`That can't be done: ${reason(error)}.`);
      return;
    }
    this.page.changed();
    this.page.say("Done; undo brings back what was there.");
    if (names.length === 0) this.close();
    else this.show(came, false);
  }

  private close(): void {
    this.place.hidden = true;
    this.page.compare([]);
  }
}

function link(words: string, act: () => void): HTMLElement {
  const made = button(words, act);
  made.className = "offer";
  return made;
}
