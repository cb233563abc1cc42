// The page: it holds the plan's desk, shows what the core says, and tells the core what a person does.

import { loadCore, type Core } from "./start/core.js";
import { known, make } from "./page/dom.js";
import { Drawing } from "./drawing/drawing.js";
import { makeField, setFieldService, type Field } from "./field/field.js";
import { useFaces } from "./start/fonts.js";
import type { Outcome, Workbench as Desk } from "./generated/overmantel.js";
import { Crop } from "./drawing/crop.js";
import { demoPicture, demoPlans } from "./start/demo.js";
import { decode, encode, forFile, fromFile, SENT_BYTES, type Decoded } from "./pictures/pictures.js";
import { Lists } from "./lists/lists.js";
import { save } from "./page/file.js";
import { Originals } from "./pictures/originals.js";
import { Papers } from "./papers/papers.js";
import { printProposals } from "./papers/printed.js";
import { Section } from "./drawing/section.js";
import { complaints } from "./field/sentence.js";
import { Sending } from "./sending/sending.js";
import { Sentences } from "./field/sentences.js";
import { keepSource, ofStudio } from "./page/source.js";
import { SideBySide } from "./kept/side-by-side.js";
import { copyName, KeptPlans } from "./kept/kept.js";
import { keepCopy, keepDrawn, keepStock, keptCopy, keptPlan, keptStock, markBroken, refusal, type KeptEntry } from "./kept/store.js";
import { Thumbnails } from "./drawing/thumbnails.js";
import { Books } from "./lists/books.js";
import { StudioForm } from "./sending/studio.js";
import { SuggestedPlans } from "./start/suggestions.js";
import { showTable } from "./lists/table.js";

/** The page at work. */
class Page {
  private readonly drawing: Drawing;
  private readonly sentences: Sentences;
  private readonly section: Section;
  private readonly lists: Lists[];
  private readonly papers: Papers;
  private readonly originals = new Originals();
  private readonly studio: StudioForm;
  /** The list of one's own stock that is in use, as a file. */
  private stock = keptStock() ?? ofStudio("stock");
  private readonly which = make("fieldset", { id: "which" });
  private readonly status = known("status");
  private readonly crop: Crop;
  readonly kept: KeptPlans;
  private readonly starts: Thumbnails;
  private readonly suggested: SuggestedPlans;
  readonly sending: Sending;
  private title: Field | undefined;
  /** The piece that is described; none for all. */
  private piece: number | undefined;
  private due = 0;

  constructor(
    private readonly core: Core,
    private readonly desk: Desk,
  ) {
    const write = (field: string, text: string): Outcome => this.write(field, text);
    setFieldService(desk);
    this.drawing = new Drawing(desk, write, {
      changed: () => this.changed(),
      drawn: () => {
        if (!this.kept.isBorrowed) keepDrawn(desk.plan_file());
      },
      say: (text) => this.say(text),
      alone: () => this.piece !== undefined,
    });
    // Before everything else is made.
    this.drawing.first();
    performance.mark("first-drawing");
    this.kept = new KeptPlans({
      text: () => desk.plan_file(),
      open: (entry) => void this.openKept(entry),
      copyOf: (text) => core.plan_copy(text),
      compare: (plans) => sideBySide.show(plans),
      say: (text) => this.say(text),
    });
    const sideBySide = new SideBySide(core, {
      differences: (one, other) => desk.differences(one, other),
      furnish: (other) => this.fetchFor(other),
    });
    this.sending = new Sending(core, desk, {
      kept: this.kept,
      fullPlan: async () => (await this.fullPlan(SENT_BYTES)).text,
      shown: async () => {
        await this.fetchCopies();
        this.drawing.later();
        this.show();
      },
      restore: (copies) => this.restore(copies, false),
      openKept: (entry) => this.openKept(entry),
      compare: (plans) => sideBySide.show(plans),
      changed: () => this.changed(),
      missing: () => this.missing(),
      stated: () => this.papers.show(),
      save,
      say: (text) => this.say(text),
    });
    this.crop = new Crop(known("stage"), (field) => desk.field(field), write, (message) => this.say(message ?? ""));
    this.sentences = new Sentences(known("specification"), write, { made: this.which });
    this.section = new Section(desk);
    const take = (field: string, text: string): void => this.say(this.write(field, text).error ?? "Taken; it can be undone.");
    this.lists = [
      new Lists("fits", () => [desk.fits(this.piece)], take),
      new Lists("cuts", () => desk.cuts(this.piece), take),
      new Lists("prices", () => desk.prices(), take),
    ];
    this.suggested = new SuggestedPlans(desk, {
      draw: () => this.drawing.later(),
      changed: () => this.changed(),
      say: (text) => this.say(text),
    });
    const books = new Books(desk, {
      priced: () => this.show(),
      say: (text) => this.say(text),
    });
    this.studio = new StudioForm(desk, {
      filedPictures: async () => core.copies_in((await this.fullPlan(SENT_BYTES)).text),
      stock: () => this.stock,
      book: () => books.text,
      save,
      say: (text) => this.say(text),
    });
    this.papers = new Papers(core, desk, this.sending.proposed, this.originals);
    printProposals(desk, () => this.papers.options());
    this.starts = new Thumbnails(
      (context, sheet, code) => desk.draw_start(context, sheet, code),
      ({ code, words }) => this.start(code, words),
    );
    known("starts").append(this.starts.element);
    known("starts").addEventListener("toggle", () => this.showStarts());
    known("undo").addEventListener("click", () => this.step(() => desk.undo()));
    known("redo").addEventListener("click", () => this.step(() => desk.redo()));
    known("units").addEventListener("change", (event) => this.units(event));
    known("choose").addEventListener("click", () => known("pictures").click());
    known("open").addEventListener("click", () => known("plan").click());
    known("save").addEventListener("click", () => save(`${desk.view(undefined).title}.json`, desk.plan_file()));
    known("save-full").addEventListener("click", () => void this.saveFull());
    known("open-stock").addEventListener("click", () => known("stock").click());
    known("drop-stock").hidden = keptStock() === null;
    known("drop-stock").addEventListener("click", () => this.dropStock());
    known("save-stock").addEventListener("click", () => save("stock.json", desk.stock_file()));
    known("copy").addEventListener("click", () => this.copy());
    this.receive();
    this.offer();
    addEventListener("keydown", (event) => this.shortcut(event));
  }

  /** Shows everything but the drawing, when that is on the screen. */
  async begin(): Promise<void> {
    await new Promise((resolve) => setTimeout(resolve));
    this.show();
  }

  private write(field: string, text: string): Outcome {
    const outcome = this.desk.set(field, text);
    if (outcome.error === undefined) this.changed();
    return outcome;
  }

  /** Keeps the plan and shows it, once the focus has gone where it is going. */
  private changed(): void {
    this.kept.keep();
    this.say(this.kept.trouble);
    this.drawing.later();
    this.due ||= setTimeout(() => this.show());
  }

  /** Says that the core has failed: what was typed is kept, and the page begins anew with the last plan that it drew. */
  fail(): void {
    markBroken();
    const notice = known("notice");
    notice.hidden = false;
    notice.replaceChildren(
      "Something in this plan broke the drawing. The plan before it is kept; ",
      make("a", { href: "" }, "go on with that"),
      ".",
    );
    notice.scrollIntoView();
  }

  private show(): void {
    clearTimeout(this.due);
    this.due = 0;
    const view = this.desk.view(this.piece);
    document.title = `${view.title} · Overmantel`;
    this.showTitle();
    known<HTMLButtonElement>("undo").disabled = !view.can_undo;
    known<HTMLButtonElement>("redo").disabled = !view.can_redo;
    const units = view.both ? "both" : view.units;
    known("units").querySelector<HTMLInputElement>(`[value="${units}"]`)?.click();
    this.showWhich(view.pieces);
    this.sentences.show(view.paragraphs);
    const caption = view.pieces === 1 ? "The piece" : this.piece === undefined ? "Each piece (the first, where they differ)" : `Piece ${this.piece + 1}`;
    this.section.show(this.piece, `Section of ${caption.charAt(0).toLowerCase()}${caption.slice(1)}`);
    showTable(known("table"), caption, view.table);
    this.lists.forEach((list) => list.show());
    this.papers.show();
    this.showStarts();
    this.suggested.show();
    this.sending.show();
    this.studio.show();
    this.crop.show();
    known<HTMLButtonElement>("before").disabled = !view.can_undo;
    known("words").textContent = view.in_words;
    known("caution").textContent = view.caution;
  }

  private showStarts(): void {
    if (known<HTMLDetailsElement>("starts").open) this.starts.show(this.desk.starts());
  }

  /** Begins with a whole plan, as one step that can be undone. */
  private start(code: string, words: string): void {
    const { error } = this.write("offer.start", code);
    this.say(error ?? `Begun anew: ${words.charAt(0).toLowerCase()}${words.slice(1)}. Undo brings back what was there.`);
  }

  private showTitle(): void {
    const view = this.desk.field("title");
    if (!view) return;
    if (this.title) {
      this.title.update(view);
      return;
    }
    const { element, complain } = complaints();
    this.title = makeField(view, (field, text) => this.write(field, text), complain);
    known("title").append(this.title.element, element);
  }

  /** Which pieces the sentences on their make are about. */
  private showWhich(pieces: number): void {
    this.which.hidden = pieces < 2;
    if (this.piece !== undefined && this.piece >= pieces) this.piece = undefined;
    const count = this.which.querySelectorAll("input").length;
    if (count === (pieces < 2 ? 0 : pieces + 1)) return;
    if (pieces < 2) {
      this.which.replaceChildren();
      return;
    }
    const names = ["all of them", "the first", "the second", "the third"].slice(0, pieces + 1);
    this.which.replaceChildren(
      make("legend", { class: "unseen" }, "Described here"),
      ...names.map((name, index) => {
        const input = make("input", { type: "radio", name: "which", value: String(index) });
        input.checked = index === (this.piece === undefined ? 0 : this.piece + 1);
        input.addEventListener("change", () => {
          this.piece = index === 0 ? undefined : index - 1;
          this.show();
        });
        return make("label", {}, input, make("span", {}, name));
      }),
    );
  }

  private copy(): void {
    navigator.clipboard.writeText(this.desk.order_text()).then(
      () => this.say("The specification is on the clipboard."),
      () => this.say("This browser does not let the page write to the clipboard."),
    );
  }

  /** Says what there is to say at the beginning. */
  greet(said: string): void {
    const greeting = [said, ...this.missing()].filter(Boolean).join(" ");
    if (greeting) this.say(greeting);
  }

  private say(text: string): void {
    if (this.status.textContent !== text) this.status.textContent = text;
  }

  private step(act: () => boolean): void {
    if (act()) this.changed();
  }

  private units(event: Event): void {
    const value = event.target instanceof HTMLInputElement ? event.target.value : "inches";
    const view = this.desk.view(this.piece);
    const centimetres = value === "both" ? view.units === "centimetres" : value === "centimetres";
    if (centimetres === (view.units === "centimetres") && (value === "both") === view.both) return;
    this.desk.show_units(centimetres, value === "both");
    this.changed();
  }

  private shortcut(event: KeyboardEvent): void {
    const typing = event.target instanceof HTMLInputElement && event.target.type === "text";
    if (typing || !(event.ctrlKey || event.metaKey)) return;
    const key = event.key.toLowerCase();
    if (key === "z" || key === "y") {
      event.preventDefault();
      this.step(() => (key === "y" || event.shiftKey ? this.desk.redo() : this.desk.undo()));
    }
  }

  /** Takes pictures and plans by picker, by dropping and by pasting. */
  private receive(): void {
    const picked = (id: string, take: (files: File[]) => void): void => {
      const input = known<HTMLInputElement>(id);
      input.addEventListener("change", () => {
        take([...(input.files ?? [])]);
        input.value = "";
      });
    };
    picked("pictures", (files) => void this.take(files));
    picked("plan", (files) => void this.openPlan(files[0]));
    picked("stock", (files) => void this.openStock(files[0]));
    addEventListener("paste", (event) => {
      const files = [...(event.clipboardData?.files ?? [])];
      if (files.length > 0) {
        event.preventDefault();
        void this.take(files);
      }
    });
    addEventListener("dragover", (event) => {
      event.preventDefault();
      document.body.dataset["dropping"] = "";
    });
    addEventListener("dragleave", (event) => {
      if (!event.relatedTarget) delete document.body.dataset["dropping"];
    });
    addEventListener("drop", (event) => {
      event.preventDefault();
      delete document.body.dataset["dropping"];
      const files = [...(event.dataTransfer?.files ?? [])];
      const plan = files.find((file) => /\.(json|txt)$/.test(file.name));
      if (plan) void this.openPlan(plan);
      else void this.take(files, this.pieceAt(event));
    });
  }

  private pieceAt(event: MouseEvent): number | undefined {
    const under = this.desk.under(...this.drawing.at(event));
    return under?.startsWith("piece.") ? Number(under.slice("piece.".length)) : undefined;
  }

  private async take(files: File[], piece = this.piece): Promise<void> {
    const decoded: Decoded[] = [];
    const wrong: string[] = [];
    for (const file of files) {
      this.say(`Reading ${file.name}…`);
      try {
        const picture = await decode(this.core, file, file.name.normalize());
        decoded.push(picture);
        this.originals.keep(picture, file);
      } catch (error) {
        wrong.push(error instanceof Error ? error.message : String(error));
      }
    }
    if (decoded.length > 0) {
      const added = this.desk.add_pictures({
        files: decoded.map(({ file, width_px, height_px }) => ({ file, width_px, height_px })),
        piece,
      });
      if (added.error !== undefined) wrong.push(added.error);
      if (added.names.length > 3) wrong.push(`Three of the ${added.names.length} pictures hang; the others can be chosen in the sentences.`);
      const copyNames = new Map(this.desk.wanted_copies().map((wanted) => [wanted.name, copyName(wanted)]));
      for (const [index, name] of added.names.entries()) {
        const copy = decoded[index]?.copy;
        if (!copy) continue;
        this.desk.put_copy(name, copy.width, copy.height, new Uint8Array(copy.data.buffer));
        if (!(await keepCopy({ name: copyNames.get(name) ?? name, image: await encode(copy) }))) {
          wrong.push(`${name} could not be kept on this machine; after a reload it has to be chosen again.`);
        }
      }
      this.changed();
    }
    this.say([...wrong, ...this.missing()].join(" "));
  }

  /** What to say of pictures of the plan that are not here. */
  private missing(): string[] {
    const missing = this.desk.wanted_copies().filter(({ name }) => !this.desk.is_sketched(name));
    return missing.map(({ name, file }) => `${name} is not here: choose or drop its file, ${file}.`);
  }

  private async openPlan(file: File | undefined): Promise<void> {
    // A plan with all its pictures is shorter than this; the core says so of anything longer.
    if (!file) return;
    const text = await file.slice(0, 16 << 20).text();
    // A plan is JSON; an answer is a text for people, with a link at its end.
    if (text.includes("#") && !text.trimStart().startsWith("{")) await this.sending.open(text);
    else if (await this.openText(file.name, text)) await this.restore(this.core.copies_in(text));
  }

  /** The plan with its pictures, reduced to so many bytes each, in the same file; and what to say of those that are not here. */
  private async fullPlan(most?: number): Promise<{ text: string; without: string[] }> {
    const copies: string[] = [];
    const without: string[] = [];
    for (const { name, copy_width_px, copy_height_px } of this.desk.copies()) {
      const isHere = copy_width_px > 0;
      const pixels = new Uint8ClampedArray(this.desk.copy_pixels(name));
      const filed = isHere ? await forFile(new ImageData(pixels, copy_width_px, copy_height_px), most) : "";
      if (filed === "") without.push(`${name} is not here, and is not in the file.`);
      copies.push(filed);
    }
    return { text: this.desk.full_plan_file(copies), without };
  }

  private async saveFull(): Promise<void> {
    try {
      const { text, without } = await this.fullPlan();
      save(`${this.desk.view(undefined).title}, with pictures.json`, text);
      this.say(without.join(" "));
    } catch (error) {
      this.say(`The plan was not saved: ${error instanceof Error ? error.message : String(error)}.`);
    }
  }

  /** Puts the pictures that came with a plan file on the desk, and keeps those that are not kept yet. */
  private async restore(filed: string[], keeps = true): Promise<void> {
    const wrong: string[] = [];
    for (const [index, picture] of this.desk.copies().entries()) {
      const text = filed[index];
      if (!text) continue;
      try {
        const copy = await fromFile(this.core, text, picture.name);
        this.desk.put_copy(picture.name, copy.width, copy.height, new Uint8Array(copy.data.buffer));
        const name = copyName(picture);
        if (!keeps) continue;
        if ((await keptCopy(name)) === undefined && !(await keepCopy({ name, image: await encode(copy) }))) {
          wrong.push(`${picture.name} could not be kept on this machine; after a reload the file has to be opened again.`);
        }
      } catch (error) {
        wrong.push(error instanceof Error ? error.message : String(error));
      }
    }
    this.drawing.later();
    this.showStarts();
    this.say([...wrong, ...this.missing()].join(" "));
  }

  /** Takes a list of the user's own over the stock on offer, and keeps it. */
  private async openStock(file: File | undefined): Promise<void> {
    if (!file) return;
    const text = await file.slice(0, 8 << 20).text();
    const { error } = this.desk.open_stock(text);
    if (error === undefined) {
      this.stock = text;
      this.changed();
      known("drop-stock").hidden = false;
      this.say(keepStock(text) ? `The list ${file.name} is in use.` : `The list ${file.name} is in use, but not kept: ${refusal()}.`);
    } else {
      this.say(`${file.name}: ${error}`);
    }
  }

  /** Goes back to the stock on offer. */
  private dropStock(): void {
    this.desk.open_stock('{ "overmantel_stock": 1 }');
    keepStock(null);
    this.stock = undefined;
    known("drop-stock").hidden = true;
    this.changed();
    this.say("The stock on offer is in use again.");
  }

  /** Opens a plan that came from outside, which is kept at once, or an example, which is kept when it is changed. */
  private async openText(name: string, text: string, isExample = false): Promise<boolean> {
    if (!(await this.changeTo(name, text, null))) return false;
    if (!isExample) this.kept.keep();
    return true;
  }

  private async openKept(entry: KeptEntry): Promise<void> {
    if (await this.changeTo(entry.title, entry.text, entry.id)) this.say([`${entry.title} is open.`, ...this.missing()].join(" "));
  }

  /** Takes another plan to work; the one before is kept. Where it can't be, the change is a step that can be undone. */
  private async changeTo(name: string, text: string, id: string | null): Promise<boolean> {
    const isKept = await this.kept.settle();
    const { error } = isKept ? this.desk.begin_with(text) : this.desk.open(text);
    if (error !== undefined) {
      this.say(`${name}: ${error}`);
      return false;
    }
    if (isKept) this.kept.changeTo(id);
    this.say("");
    await this.fetchCopies();
    this.drawing.later();
    this.show();
    this.say(this.missing().join(" "));
    return true;
  }

  /** Offers the demo's plans to begin with. */
  private offer(): void {
    const select = known<HTMLSelectElement>("begin");
    const plans = demoPlans();
    select.append(...plans.map(({ title }, index) => make("option", { value: String(index) }, title)));
    select.addEventListener("change", () => {
      const plan = plans[Number(select.value)];
      select.selectedIndex = 0;
      if (plan) void this.openText(plan.title, plan.text, true);
    });
  }

  /** Puts on the desk what copies there are of the plan's pictures: the demo's own, and those kept. */
  async fetchCopies(): Promise<void> {
    await this.fetchFor(this.desk);
    this.showStarts();
  }

  private async fetchFor(desk: Desk): Promise<void> {
    for (const wanted of desk.wanted_copies()) {
      const { name, file } = wanted;
      // One of this very file; the demo's own; or one that was kept before there were several plans.
      const blob = (await keptCopy(copyName(wanted)))?.image ?? demoPicture(file) ?? (await keptCopy(name))?.image;
      if (!blob) continue;
      try {
        const { copy } = await decode(this.core, blob, file);
        desk.put_copy(name, copy.width, copy.height, new Uint8Array(copy.data.buffer));
        if (desk === this.desk) this.drawing.later();
      } catch {
        this.say(`The kept copy of ${name} can't be read; choose the picture again.`);
      }
    }
  }
}

/** The desk with the plan of last time, or the demo. */
function desk(core: Core): { desk: Desk; said: string; isNew?: boolean; isKept?: boolean } {
  const kept = keptPlan();
  if (kept !== null) {
    const said = kept.isEarlier ? "The plan of last time broke the drawing; this is the one before it." : "";
    try {
      return { desk: new core.Workbench(kept.text), said, isKept: !kept.isEarlier };
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      return { desk: core.Workbench.starting(), said: `The plan kept from last time can't be opened: ${why}.` };
    }
  }
  const demo = demoPlans()[0];
  return { desk: demo === undefined ? core.Workbench.starting() : new core.Workbench(demo.text), said: "", isNew: true };
}

async function begin(): Promise<void> {
  const notice = known("notice");
  let isDrawn = false;
  try {
    keepSource();
    const core = await loadCore();
    performance.mark("core-ready");
    const started = desk(core);
    // One's own list, or that of the studio whose page this is.
    const stock = keptStock() ?? ofStudio("stock");
    if (stock !== undefined) {
      const { error } = started.desk.open_stock(stock);
      if (error !== undefined) started.said += ` The list of your own stock can't be used: ${error}.`;
    }
    known<HTMLDetailsElement>("starts").open = started.isNew === true;
    document.body.dataset["ready"] = "";
    notice.hidden = true;
    const page = new Page(core, started.desk);
    isDrawn = true;
    addEventListener("error", (event) => {
      if (event.error instanceof WebAssembly.RuntimeError) page.fail();
    });
    addEventListener("unhandledrejection", (event) => {
      if (event.reason instanceof WebAssembly.RuntimeError) page.fail();
    });
    page.kept.takeUp(started.isKept === true);
    // The drawing has its own lettering and waits for neither the faces nor the pictures.
    const copies = page.fetchCopies();
    await page.begin();
    const isSent = await page.sending.begin(true);
    await Promise.allSettled([copies, ...useFaces(core)]);
    performance.mark("pictures-drawn");
    document.documentElement.dataset["ready"] = "";
    if (!isSent) page.greet(started.said);
  } catch (error) {
    // A page that works is left as it is.
    if (!isDrawn) delete document.body.dataset["ready"];
    notice.hidden = false;
    notice.textContent = error instanceof Error ? error.message : String(error);
    notice.scrollIntoView();
  }
}

void begin();
