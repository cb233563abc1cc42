// Answers that come back: both plans on the same wall, what differs in words, and what of it is taken.

import type { Desk, LookedAt } from "../generated/overmantel.js";
import { button } from "../page/controls.js";
import { known, make } from "../page/dom.js";
import { reason } from "../page/error.js";

/** What the page does for it. */
export interface Answered {
  /** Shows plans side by side, or none. */
  compare(plans: { title: string; text: string }[]): void;
  /** The plan at work has changed. */
  changed(): void;
  /** Something to say in the line below the drawing. */
  say(text: string): void;
}

const DECIDED = { size: "the sizes", make_up: "what they are made of", frame: "the frames" } as const;

/** Shows an answer beside the plan at work. */
export class Answers {
  private readonly place = known("answer");

  constructor(
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
    const decided = (Object.keys(DECIDED) as (keyof typeof DECIDED)[]).filter((code) => answer[code]).map((code) => DECIDED[code]);
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
    this.place.replaceChildren(
      make("h2", { tabindex: "-1" }, answer.from === "" ? "An answer has come back" : `An answer from ${answer.from}`),
      ...(isOther ? [make("p", {}, "The plan it answers is not kept here as it was sent, so you see it beside the plan you have open.")] : []),
      ...(answer.note === "" ? [] : [make("p", { class: "said" }, answer.note)]),
      make("p", {}, decided.length === 0 ? "Nothing is decided yet." : `I have decided on ${decided.join(", ")}.`),
      ...acts,
    );
    this.place.hidden = false;
    this.page.compare(rows.length === 0 ? [] : [{ title: "Mine", text: mine }, { title: "The answer", text: came.plan }]);
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
