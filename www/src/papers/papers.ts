// Papers: each as it will be printed, and saving one or all of them as PDF.

import type { Desk, PaperOptions, PaperView } from "../generated/overmantel.js";
import { keptOrdered } from "../kept/local.js";
import { button } from "../page/controls.js";
import { known, make } from "../page/dom.js";
import { reason } from "../page/error.js";
import { save } from "../page/file.js";
import { Saying } from "../page/saying.js";
import { today } from "../page/today.js";
import type { Originals } from "../pictures/originals.js";
import { forFile } from "../pictures/pictures.js";
import { pageAddress } from "../sending/address.js";
import type { ProposalForm } from "../sending/proposal-form.js";
import type { Core } from "../start/core.js";
import { PrintFiles } from "./print-files.js";

/** Pages of a paper that are shown before it is saved; of the rest it is said how many there are. */
const SHOWN = 3;

/** What the papers need of the photograph of a room. */
export interface RoomSeen {
  hasRoom(): Promise<boolean>;
  /** The plan's pieces in it; nothing where they don't hang in it. */
  seen(): Promise<ImageData | undefined>;
}

/** The part of the page that shows the papers, worked out while it is open. */
export class Papers {
  private readonly details = known<HTMLDetailsElement>("papers");
  private readonly list = make("div", { class: "papers" });
  private readonly letter = make("input", { type: "radio", name: "paper", value: "letter" });
  private readonly a4 = make("input", { type: "radio", name: "paper", value: "a4" });
  private readonly date = make("input", { type: "date", id: "papers-date" });
  private readonly forMaker = make("input", { type: "checkbox" });
  private readonly hooksOnly = make("input", { type: "checkbox" });
  private readonly inRoom = make("input", { type: "checkbox", autocomplete: "off" });
  private readonly roomShown = make("label", { hidden: true }, this.inRoom, "the proposal with the pieces in my photograph of the room");
  private turn = 0;
  private readonly line = make("p");
  private readonly said = new Saying(this.line);
  private readonly printFiles: PrintFiles;
  private isChosen = false;
  private due = 0;

  constructor(
    core: Core,
    private readonly desk: Desk,
    private readonly proposed: ProposalForm,
    private readonly originals: Originals,
    private readonly room: RoomSeen,
  ) {
    this.printFiles = new PrintFiles(core, desk, originals);
    this.date.value = today();
    const all = make("button", { type: "button" }, "Save all papers");
    all.addEventListener("click", () => void this.saveAll());
    for (const input of [this.letter, this.a4, this.date, this.forMaker, this.hooksOnly, this.inRoom]) {
      input.addEventListener("change", () => {
        this.isChosen ||= input === this.letter || input === this.a4;
        this.show();
      });
    }
    this.details.append(
      make(
        "div",
        { class: "paper-options" },
        make(
          "fieldset",
          {},
          make("legend", { class: "unseen" }, "Printed on"),
          make("label", {}, this.a4, make("span", {}, "A4")),
          make("label", {}, this.letter, make("span", {}, "letter")),
        ),
        make("label", {}, "dated ", this.date),
        make("label", {}, this.forMaker, "the proposal with everything its maker needs"),
        make("label", {}, this.hooksOnly, "only the hooks on the template"),
        this.roomShown,
        all,
      ),
      make("p", {}, "Your name, title, message, prices and how long they are valid: ", button("fill them in", () => proposed.open()), " under “Make a proposal”."),
      this.line,
      this.list,
      this.printFiles.element,
    );
    this.details.addEventListener("toggle", () => this.show());
  }

  /** Shows the papers as they are now, if they are open. */
  show(): void {
    if (!this.details.open) return;
    // Whoever works in inches prints on letter, until they choose.
    if (!this.isChosen) (this.desk.view(undefined).units === "inches" ? this.letter : this.a4).checked = true;
    clearTimeout(this.due);
    this.due = setTimeout(() => void this.draw());
  }

  /** Opens them, to be printed. */
  open(): void {
    this.details.open = true;
    this.details.scrollIntoView({ block: "start" });
    this.details.querySelector("summary")?.focus({ preventScroll: true });
  }

  /** What they say besides the plan. */
  options(): PaperOptions {
    const { from, ...said } = this.proposed.stated();
    return { reference: keptOrdered() ?? "", letter: this.letter.checked, date: this.date.value, author: from, address: pageAddress(), for_maker: this.forMaker.checked, hooks_only: this.hooksOnly.checked, in_room: undefined, ...said };
  }

  /** What they say, with the pieces in the photograph of the room where that is chosen. */
  private async withRoom(): Promise<{ options: PaperOptions; seen: ImageData | undefined }> {
    this.roomShown.hidden = !(await this.room.hasRoom());
    const seen = this.inRoom.checked && !this.roomShown.hidden ? await this.room.seen() : undefined;
    const in_room = seen && { width: seen.width, height: seen.height, jpeg: await forFile(seen) };
    return { options: { ...this.options(), in_room }, seen };
  }

  private async draw(): Promise<void> {
    const turn = ++this.turn;
    const { options, seen } = await this.withRoom();
    if (turn !== this.turn) return;
    const pixels = seen && new Uint8Array(seen.data.buffer);
    const had = this.list.contains(document.activeElement) ? document.activeElement?.getAttribute("data-kind") : undefined;
    this.list.replaceChildren(...this.desk.papers(options).map((paper) => this.paper(paper, options, paper.kind === "proposal" ? pixels : undefined)));
    this.printFiles.show();
    if (had) this.list.querySelector<HTMLElement>(`button[data-kind="${had}"]`)?.focus({ preventScroll: true });
  }

  private paper(paper: PaperView, options: PaperOptions, seen: Uint8Array | undefined): HTMLElement {
    if (paper.error !== undefined) {
      return make("section", {}, make("h3", {}, paper.title), make("p", { class: "note" }, `Not available: ${paper.error}.`));
    }
    const button = make("button", { type: "button", "data-kind": paper.kind, "aria-label": `Save as PDF: ${paper.title}` }, "Save as PDF");
    button.addEventListener("click", () => void this.save([paper]));
    const count = Math.min(paper.pages, SHOWN);
    const pages = make("div", { class: "pages" });
    const section = make("section", {}, make("h3", {}, paper.title), button, pages);
    for (let page = 0; page < count; page += 1) {
      const canvas = make("canvas", { role: "img", "aria-label": `${paper.title}, page ${page + 1} of ${paper.pages}` });
      pages.append(canvas);
      const context = canvas.getContext("2d", { alpha: false });
      // Drawn as wide as it is shown, once it is there.
      requestAnimationFrame(() => {
        if (!context || !canvas.isConnected) return;
        canvas.width = Math.max(1, Math.round(canvas.clientWidth * devicePixelRatio));
        this.desk.draw_paper(canvas, context, paper.kind, page, options, seen);
      });
    }
    if (paper.pages > count) section.append(make("p", {}, make("small", {}, `And ${paper.pages - count} more pages.`)));
    return section;
  }

  private async saveAll(): Promise<void> {
    await this.save(this.desk.papers(this.options()).filter((paper) => paper.error === undefined));
  }

  private async save(papers: PaperView[]): Promise<void> {
    try {
      const { options } = await this.withRoom();
      const { files: pictures, told } = await this.originals.photos(this.desk);
      const title = this.desk.view(undefined).title;
      for (const { kind, title: name } of papers) {
        this.said.show(`Writing: ${name}…`);
        const file = this.desk.paper_file(kind, options, pictures);
        save(`${title}, ${name.toLowerCase()}.pdf`, new Blob([file as Uint8Array<ArrayBuffer>], { type: "application/pdf" }));
        // A browser takes several files only one after another.
        await new Promise((resolve) => setTimeout(resolve, 300));
      }
      const saved = papers.length === 1 ? "Saved. Print it at 100 %." : `${papers.length} papers saved. Print them at 100 %.`;
      this.said.say(`${saved} ${told}`.trim());
    } catch (error) {
      this.said.say(`The papers were not saved: ${reason(error)}.`);
    }
  }
}
