// The page: it holds the plan's desk, shows what the core says, and tells the core what a person does.

import { Crop } from "./drawing/crop.js";
import { drawFirst, Drawing } from "./drawing/drawing.js";
import { Section } from "./drawing/section.js";
import { TrueSize } from "./drawing/true-size.js";
import { View, WIDTH_PX } from "./drawing/view.js";
import { Described } from "./field/described.js";
import { setFieldService } from "./field/field.js";
import { setTermDrawing } from "./field/term.js";
import { Specification } from "./field/specification.js";
import type { Desk, Outcome, WantedCopy } from "./generated/overmantel.js";
import { KeptPlans } from "./kept/kept.js";
import { isHandedOut, keepDrawn, keepSteps, keptDepth, keptPlan } from "./kept/local.js";
import { Opening } from "./kept/opening.js";
import { SideBySide } from "./kept/side-by-side.js";
import { Books } from "./lists/books.js";
import { Lists } from "./lists/lists.js";
import { OwnStock, stockToBeginWith } from "./lists/own-stock.js";
import { showTable } from "./lists/table.js";
import { copyText } from "./page/controls.js";
import { known } from "./page/dom.js";
import { reason } from "./page/error.js";
import { watchForFaults } from "./page/fault.js";
import { save } from "./page/file.js";
import { Header } from "./page/header.js";
import { keepFocus } from "./page/focus.js";
import { listenToKeys } from "./page/keys.js";
import { receiveFiles } from "./page/receive.js";
import { Roving } from "./page/roving.js";
import { inShort, Saying } from "./page/saying.js";
import { keepSource } from "./page/source.js";
import { Papers } from "./papers/papers.js";
import { printProposals } from "./papers/printed.js";
import { Copies } from "./pictures/copies.js";
import { EarlyPictures } from "./pictures/early.js";
import { Originals } from "./pictures/originals.js";
import { decode, forFile, SENT_BYTES } from "./pictures/pictures.js";
import { Room } from "./room/room.js";
import { Sending } from "./sending/sending.js";
import { StudioForm } from "./sending/studio.js";
import { Beginning, type Core } from "./start/core.js";
import { firstDemoPlan } from "./start/demo.js";
import { firstDesk } from "./start/first-desk.js";
import { keepForNextTime } from "./start/folder.js";
import { useFaces } from "./start/fonts.js";
import { Starts } from "./start/starts.js";
import { SuggestedPlans } from "./start/suggestions.js";
import { caption, firstState, PageState, uncapitalised } from "./state.js";

/** The page at work. */
class Page {
  readonly kept: KeptPlans;
  readonly sending: Sending;
  private readonly drawing: Drawing;
  private readonly header: Header;
  private readonly described: Described;
  private readonly specification: Specification;
  private readonly sideBySide: SideBySide;
  private readonly section: Section;
  private readonly crop: Crop;
  private readonly lists: Lists[];
  private readonly starts: Starts;
  private readonly suggested: SuggestedPlans;
  private readonly papers: Papers;
  private readonly studio: StudioForm;
  private readonly copies: Copies;
  private readonly books: Books;
  private readonly room: Room;
  private readonly status = new Saying(known("status"));
  private due = 0;

  constructor(
    core: Core,
    private readonly desk: Desk,
    private readonly state: PageState,
  ) {
    const write = (field: string, text: string): Outcome => {
      const before = field.startsWith("fixture") ? this.things() : undefined;
      const outcome = this.done(desk.set(field, text));
      if (before !== undefined) this.sayThing(before);
      return outcome;
    };
    const [say, changed] = [(text: string): void => this.say(text), (): void => this.changed()];
    setFieldService(desk);
    setTermDrawing((canvas, context, sheet, term) => desk.draw_term(canvas, context, sheet, state.now.piece, term));
    this.drawing = new Drawing(desk, state, write, {
      changed,
      drawn: () => {
        if (!this.kept.isBorrowed) keepDrawn(desk.plan_file());
      },
      photograph: () => this.room.draw(),
      photographed: (shown) => this.room.show(shown),
      say,
    });
    // What can be pressed lies on the drawing from the next frame on.
    this.drawing.later();
    const originals = new Originals();
    this.copies = new Copies(core, desk, originals, { draw: () => this.drawing.later(), changed, say });
    this.kept = new KeptPlans({
      text: () => desk.plan_file(),
      steps: () => desk.steps(),
      facts: (text) => core.Desk.plan_facts(text),
      open: (entry) => void opening.entry(entry),
      copyOf: (text) => core.plan_copy(text),
      compare: (plans) => sideBySide.show(plans),
      say,
    });
    const sideBySide = new SideBySide(core, {
      text: () => desk.plan_file(),
      beside: () => desk.beside(),
      summary: (one, other) => desk.summary(one, other),
      differences: (one, other) => desk.differences(one, other),
      furnish: (other) => this.copies.furnish(other),
    });
    this.sideBySide = sideBySide;
    this.sending = new Sending(core, desk, {
      kept: this.kept,
      fullPlan: async (filing) => (await this.copies.fullPlan(filing)).text,
      fullOf: (plan, filing) => this.copies.fullOf(plan, filing),
      hasRoom: () => this.room.isKept(),
      inRoom: (plan) => this.copies.furnished(plan, async (other) => {
        const seen = await this.room.seen(other);
        return seen && forFile(seen);
      }),
      filed: async (file, largest) => forFile((await decode(core, file, file.name)).copy, { largest }),
      furnish: (other) => this.copies.furnish(other),
      stock: () => state.now.stock,
      hasBook: () => this.books.text !== undefined,
      order: (plan, title, reference) => opening.ordered(plan, title, reference),
      shown: () => this.showPlan(),
      openKept: (entry) => opening.entry(entry),
      compare: (plans) => sideBySide.show(plans),
      inShort: () => this.specification.turn("short"),
      changed,
      missing: () => this.copies.missing(),
      stated: () => this.papers.show(),
      save,
      say,
    });
    const opening = new Opening(core, desk, this.kept, this.copies, {
      shown: () => this.showPlan(),
      restore: (copies) => this.restore(copies),
      papers: () => this.papers.open(),
      openLink: (text) => this.sending.open(text),
      say,
    });
    this.header = new Header(desk, write, {
      changed: () => {
        changed();
        // A step may have pictures that were put on the desk before the page was loaded again.
        void this.fetchCopies();
      },
      say,
    });
    addEventListener("pagehide", () => keepSteps(desk.steps()));
    listenToKeys({
      undo: () => this.header.undo(),
      redo: () => this.header.redo(),
      save: () => known("save").click(),
      remove: () => this.drawing.removePressed(),
    });
    keepFocus();
    for (const place of ["acts", "looks"]) new Roving(known(place), `#${place} > button, #${place} > fieldset input, #${place} > details > summary`);
    for (const places of [["ideas", "beside", "hand-on"], ["sizes", "foot"]]) {
      const headings = places.map((place) => `#${place} > details > summary`).join();
      document.querySelectorAll(headings).forEach((heading) => heading.setAttribute("aria-describedby", "by-arrows"));
      new Roving(known("parts"), headings);
    }
    this.described = new Described(state, () => this.show());
    this.crop = new Crop(desk, state, write, (message) => say(message ?? ""));
    const mend = (id: string): Outcome => this.done(desk.mend(id));
    this.specification = new Specification(state, { write, mend, show: () => this.show(), say }, { made: this.described.element });
    this.specification.turn(state.now.depth);
    new TrueSize(desk, originals);
    this.room = new Room(core, desk, state, { draw: () => this.drawing.later(), changed, say });
    new View(desk, state, { draw: () => this.drawing.later(), photograph: (context, most_px) => this.room.picture(context, most_px), say });
    this.section = new Section(desk);
    const take = (field: string, text: string): void => say(write(field, text).error ?? "Done; undo brings back what was there.");
    this.lists = [
      new Lists("fits", () => [desk.fits(state.now.piece)], take),
      new Lists("cuts", () => desk.cuts(state.now.piece), take),
      new Lists("prices", () => desk.prices(), take),
    ];
    this.starts = new Starts(desk, write, say);
    this.suggested = new SuggestedPlans(desk, { draw: () => this.drawing.later(), changed, say });
    this.books = new Books(desk, { priced: () => this.show(), say });
    this.studio = new StudioForm(desk, {
      filedPictures: async () => core.copies_in((await this.copies.fullPlan({ most: SENT_BYTES })).text),
      stock: () => state.now.stock,
      book: () => this.books.text,
      save,
      say,
    });
    this.papers = new Papers(core, desk, this.sending.proposed, originals, { hasRoom: () => this.room.isKept(), seen: () => this.room.seen(desk) });
    printProposals(desk, () => this.papers.options(), (context) => state.now.photographed && this.room.picture(context, WIDTH_PX));
    known("copy").addEventListener("click", () => copyText(desk.order_text(), "The specification is on the clipboard.", say));
    const stock = new OwnStock(desk, state, { changed, say });
    receiveFiles({
      aim: (event) => this.drawing.aim(event),
      pictures: (files, dropped) => {
        const [first] = files;
        if (first !== undefined && this.room.takesDrop(dropped)) void this.room.choose(first);
        else void this.copies.take(files, (dropped && this.drawing.pieceUnder(dropped)) ?? state.now.piece);
      },
      plan: (file) => void opening.file(file),
      stock: (file) => void stock.open(file),
    });
  }

  /** Shows everything but the drawing, when that is on the screen. */
  async begin(): Promise<void> {
    await new Promise((resolve) => setTimeout(resolve));
    this.show();
  }

  /** Says what there is to say at the beginning. */
  greet(said: string): void {
    const greeting = [said, ...this.copies.missing()].filter(Boolean).join(" ");
    if (greeting) this.say(greeting);
  }

  /** Puts on the desk what copies there are of the plan's pictures. */
  async fetchCopies(standIns: WantedCopy[] = []): Promise<void> {
    await this.copies.furnish(this.desk, standIns);
    this.starts.show();
  }

  /** Shows what a change made, if it was taken. */
  private done(outcome: Outcome): Outcome {
    if (outcome.error === undefined) this.changed();
    return outcome;
  }

  /** Keeps the plan and shows it, once the focus has gone where it is going. */
  private changed(): void {
    this.kept.keep();
    // It was said when it came.
    this.status.show(this.kept.trouble);
    this.drawing.later();
    this.due ||= setTimeout(() => this.show());
  }

  /** Shows another plan, with its pictures. */
  private async showPlan(): Promise<void> {
    this.sending.proposed.another();
    this.room.another();
    await this.fetchCopies();
    this.drawing.later();
    this.show();
  }

  private async restore(copies: string[]): Promise<void> {
    await this.copies.restore(copies);
    this.starts.show();
  }

  private show(): void {
    clearTimeout(this.due);
    this.due = 0;
    const view = this.desk.view(this.state.now.piece);
    this.state.change({ kind: "counted", pieces: view.pieces });
    const { piece } = this.state.now;
    const of = caption(this.state.now);
    this.header.show(view);
    this.described.show();
    this.specification.show(view);
    this.section.show(piece, `Section of ${uncapitalised(of)}`);
    showTable(known("table"), of, view.table);
    this.lists.forEach((list) => list.show());
    this.books.show();
    this.papers.show();
    this.starts.show();
    this.suggested.show();
    this.sending.show();
    this.studio.show();
    this.crop.show();
    this.room.update();
    this.sideBySide.update();
    document.documentElement.dataset["shown"] = "";
    known<HTMLButtonElement>("before").disabled = !view.can_undo;
    known("words").textContent = view.in_words;
    known("caution").textContent = view.caution;
  }

  private say(text: string): void {
    this.status.say(text);
  }

  /** Says what was added to the wall or removed from it, by the name that it has there. */
  private sayThing(before: string[]): void {
    const now = this.things();
    const [added] = now.filter((name) => !before.includes(name));
    const [removed] = before.filter((name) => !now.includes(name));
    if (added !== undefined && now.length > before.length) this.say(`Added: ${inShort(added)}; undo takes it away.`);
    if (removed !== undefined && now.length < before.length) this.say(`Removed: ${inShort(removed)}; undo brings it back.`);
  }

  /** What stands there or hangs on the wall besides the pieces, by its names. */
  private things(): string[] {
    const names: string[] = [];
    for (let name = this.desk.thing("fixture.0"); name !== ""; name = this.desk.thing(`fixture.${names.length}`)) names.push(name);
    return names;
  }
}

/** How long the page waits at the most for pictures that are still being decoded. */
const PATIENCE_MS = 100;

async function begin(): Promise<void> {
  const notice = known("notice");
  let isDrawn = false;
  try {
    keepSource();
    const [kept, stock] = [keptPlan(), stockToBeginWith()];
    const state = new PageState(firstState(stock, "short"));
    const early = new EarlyPictures(kept?.text ?? firstDemoPlan());
    const beginning = await Beginning.of((core, hold) => {
      performance.mark("core-ready");
      const first = firstDesk(core, hold, kept, stock);
      // It is shown, and takes nothing before there is somebody to take it.
      document.body.dataset["drawn"] = "";
      document.body.inert = true;
      notice.hidden = true;
      const { isAll } = early.putOn(first.desk, core);
      drawFirst(first.desk, state.now);
      return { ...first, isAll };
    });
    performance.mark("first-drawing");
    let { isAll } = beginning.made;
    const standIns = [...early.standIns];
    const rest = beginning.complete();
    if (!isAll) {
      // Whatever else there is waits for the pictures, but when the rest of the core is here no longer than anybody notices.
      await Promise.race([early.decoded, rest.then(() => new Promise((resolve) => setTimeout(resolve, PATIENCE_MS)))]);
      await beginning.also(({ desk }, core) => {
        const more = early.putOn(desk, core);
        isAll = more.isAll;
        if (more.isAny) drawFirst(desk, state.now);
      });
      standIns.push(...early.standIns);
    }
    early.close();
    if (isAll) performance.mark("pictures-drawn");
    const core = await rest;
    performance.mark("core-whole");
    const { desk, isNew, isKept, complete } = beginning.made;
    const said = complete();
    state.change({ kind: "told", depth: keptDepth() === "full" ? "full" : "short" });
    const page = new Page(core, desk, state);
    document.body.inert = false;
    document.body.dataset["ready"] = "";
    isDrawn = true;
    watchForFaults();
    page.kept.takeUp(isKept);
    const copies = page.fetchCopies(standIns);
    await page.begin();
    const isSent = await page.sending.begin(true);
    await Promise.allSettled([copies, ...useFaces(core)]);
    if (!isAll) performance.mark("pictures-drawn");
    performance.mark("ready");
    document.documentElement.dataset["ready"] = "";
    keepForNextTime();
    if (!isSent) page.greet(said);
    // A list that other pages have in common is not offered on a studio's page or a proposal.
    if (isNew && !isSent && !isHandedOut) await page.kept.offerLatest();
  } catch (error) {
    // A page that works is left as it is.
    if (!isDrawn) delete document.body.dataset["drawn"];
    document.body.inert = false;
    notice.hidden = false;
    notice.textContent = reason(error);
    notice.scrollIntoView();
  }
}

void begin();
