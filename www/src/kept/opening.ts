// Other plans come to work: from a file, from the list, from the examples. Files with a plan go out here as well.

import type { Desk } from "../generated/overmantel.js";
import { known, make } from "../page/dom.js";
import { reason } from "../page/error.js";
import { save } from "../page/file.js";
import { inShort } from "../page/saying.js";
import type { Copies } from "../pictures/copies.js";
import type { Core } from "../start/core.js";
import { demoPlans } from "../start/demo.js";
import type { KeptEntry } from "./database.js";
import type { KeptPlans } from "./kept.js";
import { keepOrdered } from "./local.js";

/** What the page does for it. */
export interface OpeningPage {
  /** Another plan is at work: its pictures are looked for, and it is shown. */
  shown(): Promise<void>;
  /** Puts pictures that came with a plan on the desk, and keeps them. */
  restore(copies: string[]): Promise<void>;
  /** Shows the papers of the plan at work. */
  papers(): void;
  /** Opens a text that has a link in it. */
  openLink(text: string): Promise<unknown>;
  /** Something to say in the line below the drawing. */
  say(text: string): void;
}

/** A plan with all its pictures is shorter than this. */
const MOST_BYTES = 16 << 20;

/** What is wrong with a file before it is read; nothing where it can be. */
function unread({ name, size }: File): string | undefined {
  if (size === 0) return `${inShort(name)} is empty: there is no plan in it. Choose a plan that was saved here, or a text with a link.`;
  const most = `${MOST_BYTES >> 20} MB`;
  if (size > MOST_BYTES) return `${inShort(name)} is too large: a plan with all its pictures takes up to ${most}, and this file ${Math.ceil(size / (1 << 20))} MB. Save the plan without its pictures.`;
  return undefined;
}

/** Opens and saves plans. */
export class Opening {
  constructor(
    private readonly core: Core,
    private readonly desk: Desk,
    private readonly kept: KeptPlans,
    private readonly copies: Copies,
    private readonly page: OpeningPage,
  ) {
    known("open").addEventListener("click", () => known("plan").click());
    known("save").addEventListener("click", () => save(`${this.title()}.json`, desk.plan_file()));
    known("save-full").addEventListener("click", () => void this.saveFull());
    this.offerExamples();
  }

  /** Opens a file that a person chose or dropped. */
  async file(file: File | undefined): Promise<void> {
    if (!file) return;
    const wrong = unread(file);
    if (wrong !== undefined) {
      this.page.say(wrong);
      return;
    }
    const text = await file.text();
    // A plan is JSON; an answer is a text for people, with a link at its end.
    if (text.includes("#") && !text.trimStart().startsWith("{")) await this.page.openLink(text);
    else if (await this.text(file.name, text)) await this.page.restore(this.core.copies_in(text));
  }

  /** Opens a plan of the list. */
  async entry(entry: KeptEntry): Promise<void> {
    await this.changeTo(entry.title, entry.text, entry.id, `${inShort(entry.title)} is open.`);
  }

  /** Takes up the plan of an answer, as ordered by a proposal, and shows its papers. */
  async ordered(plan: string, title: string, reference: string): Promise<void> {
    const said = `${inShort(title)} is the plan you have open. Its papers say what was ordered; your own plan is kept.`;
    if (!(await this.text(title, plan, false, said))) return;
    keepOrdered(reference === "" ? null : reference);
    this.page.papers();
  }

  /** Opens a plan that came from outside, which is kept at once, or an example, which is kept when it is changed. */
  private async text(name: string, text: string, isExample = false, said = ""): Promise<boolean> {
    if (!(await this.changeTo(name, text, null, said))) return false;
    if (!isExample) this.kept.keep();
    return true;
  }

  /** Takes another plan to work; the one before is kept. Where it can't be, the change is a step that can be undone. */
  private async changeTo(name: string, text: string, id: string | null, said = ""): Promise<boolean> {
    const isKept = await this.kept.settle();
    const { error } = isKept ? this.desk.begin_with(text) : this.desk.open(text);
    if (error !== undefined) {
      this.page.say(`${inShort(name)} can't be opened: ${error}`);
      return false;
    }
    if (isKept) this.kept.changeTo(id);
    keepOrdered(null);
    this.page.say("");
    await this.page.shown();
    this.page.say([said, ...this.copies.missing()].filter(Boolean).join(" "));
    return true;
  }

  /** Offers the demo's plans to begin with. */
  private offerExamples(): void {
    const select = known<HTMLSelectElement>("begin");
    const plans = demoPlans(this.core);
    select.append(...plans.map(({ title }, index) => make("option", { value: String(index) }, title)));
    select.addEventListener("change", () => {
      const plan = plans[Number(select.value)];
      select.selectedIndex = 0;
      if (plan) void this.text(plan.title, plan.text, true);
    });
  }

  private async saveFull(): Promise<void> {
    try {
      const { text, without } = await this.copies.fullPlan();
      save(`${this.title()}, with pictures.json`, text);
      this.page.say(without.join(" "));
    } catch (error) {
      this.page.say(`The plan was not saved: ${reason(error)}.`);
    }
  }

  private title(): string {
    return this.desk.view(undefined).title;
  }
}
