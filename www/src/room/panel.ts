// What stands below the photograph while it is marked: tools, the marks of one, what was measured, what should be known.

import type { Outcome, RoomChoice, RoomMark, RoomPhotograph, RoomView } from "../generated/overmantel.js";
import { button, line } from "../page/controls.js";
import { make } from "../page/dom.js";
import { Roving } from "../page/roving.js";
import { capital } from "../state.js";
import { BRUSHES, TOOLS, type Tool } from "./tools.js";

/** What can be chosen, as the core has it. */
export interface Controls {
  papers: RoomChoice[];
  lights: RoomChoice[];
  things: RoomChoice[];
  ends: string[];
  photograph(): RoomPhotograph | undefined;
}

/** What the panel asks for. */
export interface Asked {
  turn(tool: string): void;
  /** What is half drawn is dropped, and all is drawn again. */
  redraw(): void;
  choose(mark: string): void;
  /** A key on the mark that is chosen; whether there was a use for it. */
  key(event: KeyboardEvent): boolean;
  /** Removes what is chosen. */
  remove(): void;
  undo(): void;
  act(change: () => Outcome | undefined): boolean;
  length(text: string): void;
  closeOutline(): void;
  foot(thing: number): void;
  /** Takes what was measured into the plan. */
  take(): void;
}

/** The key of a rectangle that is no paper. */
const OTHER = "other";

/** The panel. */
export class Panel {
  readonly element = make("div", { class: "marking" });
  private readonly notes = make("div", {});
  private readonly how = make("p", { class: "how" });
  private readonly tools: HTMLElement;
  private readonly parts: Record<Tool, HTMLElement>;
  private readonly marks = make("ul", { class: "marks", "aria-label": "Marks" });
  private readonly buttons = new Map<string, HTMLButtonElement>();
  private readonly roving: Roving;
  private readonly remove: HTMLButtonElement;
  private readonly undo: HTMLButtonElement;
  private readonly take: HTMLButtonElement;
  private readonly lengths = make("div", { class: "lengths" });
  private readonly paper: HTMLSelectElement;
  private readonly size = make("form", {});
  private readonly across = line("across", "", "", "text");
  private readonly up = line("up", "", "", "text");
  private readonly typed = line("How long it is", "", "", "text");
  private readonly thing: HTMLSelectElement;
  private readonly placed = make("div", {});
  private readonly light: HTMLSelectElement;
  private readonly outline = button("Close the outline", () => this.asked.closeOutline());
  private readonly finds = make("input", { type: "checkbox", autocomplete: "off" });
  /** Whether a rectangle of another size is wanted, which has none yet. */
  private isOther = false;

  constructor(
    private readonly controls: Controls,
    private readonly asked: Asked,
  ) {
    const { act } = asked;
    const of = (change: (photograph: RoomPhotograph) => Outcome) => (): Outcome | undefined => {
      const photograph = controls.photograph();
      return photograph && change(photograph);
    };
    this.tools = radios("room-tool", "Mark", Object.entries(TOOLS).map(([key, { words }]) => [key, words]), (tool) => asked.turn(tool));
    this.paper = select([...controls.papers, { key: OTHER, words: "another size" }], (key) => {
      this.isOther = key === OTHER;
      this.size.hidden = !this.isOther;
      if (!this.isOther) act(of((photograph) => photograph.set_paper(key)));
    });
    this.size.append(this.across.element, this.up.element, make("button", { type: "submit" }, "Set this size"));
    this.size.addEventListener("submit", (event) => {
      event.preventDefault();
      if (act(of((photograph) => photograph.set_size(this.across.input.value, this.up.input.value)))) this.isOther = false;
    });
    const length = make("form", {}, this.typed.element, make("button", { type: "submit" }, "Add this length"));
    length.addEventListener("submit", (event) => {
      event.preventDefault();
      asked.length(this.typed.input.value);
    });
    this.thing = select(controls.things, () => undefined);
    this.light = select([{ key: "", words: "as read off the wall" }, ...controls.lights], (key) => act(of((photograph) => photograph.set_light(key))));
    this.finds.addEventListener("change", () => act(of((photograph) => photograph.find_before(this.finds.checked))));
    this.parts = {
      sheet: make("div", {}, make("label", {}, "The paper is ", this.paper), this.size, button("Fit the corners to the edges", () => act(of((photograph) => photograph.fit_sheet())))),
      lines: make("div", {}, button("Look for lines again", () => act(of((photograph) => photograph.find_lines())))),
      length,
      ends: make("div", {}, radios("room-end", "End", controls.ends.map((words, index) => [String(index), words]), () => asked.redraw())),
      things: make("div", {}, make("label", {}, "What it is ", this.thing), this.placed),
      front: make(
        "div",
        {},
        radios("room-hides", "The brush", [["hide", "hides the pieces"], ["show", "shows them again"]], () => asked.redraw()),
        radios("room-brush", "Brush", BRUSHES.map(([words], index) => [String(index), words]), () => {
          this.outline.hidden = this.brush() !== undefined;
          asked.redraw();
        }, 1),
        this.outline,
        make("label", { class: "check" }, this.finds, " also find it without a brush"),
      ),
      light: make("div", {}, make("label", {}, "The light comes ", this.light)),
    };
    this.remove = button("Remove", () => asked.remove());
    this.undo = button("Undo the last mark", () => asked.undo());
    this.take = button("Take these into the plan", () => asked.take());
    this.element.append(this.notes, this.tools, this.how, ...Object.values(this.parts), this.marks, make("p", { class: "acts" }, this.remove, this.undo), this.lengths, make("p", { class: "acts" }, this.take));
    this.outline.hidden = true;
    this.roving = new Roving(this.marks, "button", (control) => control.getAttribute("aria-pressed") === "true" && control.dataset["mark"]?.startsWith("line.") !== true);
    // Before the arrows go among the marks.
    this.element.addEventListener("keydown", (event) => this.key(event));
  }

  /** The brush's radius in CSS pixels; none for an outline by points. */
  brush(): number | undefined {
    return BRUSHES[Number(checked(this.parts.front, "room-brush"))]?.[1];
  }

  /** Whether the brush hides the pieces. */
  hides(): boolean {
    return checked(this.parts.front, "room-hides") === "hide";
  }

  /** The end of the wall that a press marks. */
  end(): number {
    return Number(checked(this.parts.ends, "room-end"));
  }

  /** Goes on to the next end that is not marked, where there is one. */
  nextEnd(marks: RoomMark[]): void {
    const next = this.controls.ends.findIndex((_, index) => !marks.some(({ mark }) => mark === `end.${index}`));
    const input = this.parts.ends.querySelector<HTMLInputElement>(`[value="${next}"]`);
    if (input) input.checked = true;
  }

  /** What a rectangle is of. */
  kind(): string {
    return this.thing.value;
  }

  /** Puts the focus where a length is typed. */
  askLength(): void {
    this.typed.input.focus();
  }

  forgetLength(): void {
    this.typed.input.value = "";
  }

  /** Shows a photograph's marks. */
  show(view: RoomView, tool: Tool, chosen: string | undefined, how: string): void {
    const notes = view.notes.filter(({ code }) => code !== "limits");
    this.notes.replaceChildren(...notes.map(({ text, warning }) => make("p", { class: warning ? "note" : "note quiet" }, text)));
    const input = this.tools.querySelector<HTMLInputElement>(`[value="${tool}"]`);
    if (input) input.checked = true;
    this.how.textContent = how;
    for (const [key, part] of Object.entries(this.parts)) part.hidden = key !== tool;
    this.showSheet(view);
    this.showThings(view);
    this.light.value = view.light ?? "";
    this.finds.checked = view.finds_before;
    this.showMarks(view, TOOLS[tool].marks, chosen);
    this.undo.disabled = !view.can_undo;
    this.take.disabled = !view.can_take;
    this.showLengths(view);
  }

  private showSheet({ paper, size }: RoomView): void {
    if (paper !== undefined && paper !== OTHER && this.paper.value !== paper && !this.isOther) this.paper.value = paper;
    if (paper === OTHER) this.paper.value = OTHER;
    this.paper.disabled = paper === undefined;
    this.size.hidden = this.paper.value !== OTHER;
    if (size === undefined || this.size.contains(document.activeElement)) return;
    [this.across.input.value, this.up.input.value] = size;
  }

  private showThings({ things }: RoomView): void {
    if (this.placed.contains(document.activeElement) && this.placed.childElementCount === things.filter(({ stands }) => stands).length) return;
    this.placed.replaceChildren(
      ...things.flatMap(({ name, stands, depth }, index) => {
        if (!stands) return [];
        const { element, input } = line(`Depth of the ${name}`, depth, "", "text");
        input.addEventListener("change", () => this.asked.act(() => this.controls.photograph()?.set_depth(index, input.value)));
        return [make("p", {}, element, button(`Mark the foot of the ${name}`, () => this.asked.foot(index)))];
      }),
    );
  }

  private showMarks({ marks }: RoomView, kind: string, chosen: string | undefined): void {
    const own = marks.filter(({ mark }) => mark.startsWith(`${kind}.`));
    for (const [mark, element] of this.buttons) {
      if (own.some((other) => other.mark === mark)) continue;
      element.parentElement?.remove();
      this.buttons.delete(mark);
    }
    for (const { mark, words, left_out } of own) {
      const element = this.buttons.get(mark) ?? this.addMark(mark);
      element.textContent = words;
      element.classList.toggle("out", left_out);
      element.setAttribute("aria-pressed", String(mark === chosen));
    }
    this.marks.hidden = own.length === 0;
    this.roving.refresh();
    const found = own.find(({ mark }) => mark === chosen);
    this.remove.hidden = found === undefined;
    this.remove.textContent = found === undefined || kind !== "line" ? "Remove" : found.left_out ? "Count it again" : "Leave it out";
  }

  private addMark(mark: string): HTMLButtonElement {
    const element = button("", () => this.asked.choose(mark), { "data-mark": mark });
    this.buttons.set(mark, element);
    this.marks.append(make("li", {}, element));
    return element;
  }

  private showLengths({ lengths }: RoomView): void {
    this.lengths.hidden = lengths.length === 0;
    this.take.hidden = lengths.length === 0;
    const row = ({ what, text, doubtful }: RoomView["lengths"][number]): HTMLElement => {
      const doubt = doubtful ? [" ", make("small", {}, "too uncertain to plan by")] : [];
      return make("tr", {}, make("th", { scope: "row" }, capital(what), ...doubt), make("td", {}, text));
    };
    this.lengths.replaceChildren(make("table", {}, make("caption", {}, "Read off the photograph"), make("tbody", {}, ...lengths.map(row))));
  }

  private key(event: KeyboardEvent): void {
    if (event.altKey) return;
    if (event.ctrlKey || event.metaKey) {
      const isTyping = event.target instanceof HTMLInputElement && event.target.type === "text";
      if (event.key.toLowerCase() !== "z" || event.shiftKey || isTyping) return;
      this.asked.undo();
    } else if (!(event.target instanceof HTMLElement && event.target.getAttribute("aria-pressed") === "true" && this.asked.key(event))) {
      return;
    }
    event.preventDefault();
    event.stopPropagation();
  }
}

/** A choice of one, set in a line. */
export function radios(name: string, legend: string, choices: [string, string][], chosen: (key: string) => void, first = 0): HTMLFieldSetElement {
  const labels = choices.map(([value, words], index) => {
    const input = make("input", { type: "radio", name, value, autocomplete: "off" });
    input.checked = index === first;
    input.addEventListener("change", () => chosen(value));
    return make("label", {}, input, make("span", {}, words));
  });
  return make("fieldset", { class: "choice" }, make("legend", { class: "unseen" }, legend), ...labels);
}

function checked(place: HTMLElement, name: string): string {
  return place.querySelector<HTMLInputElement>(`[name="${name}"]:checked`)?.value ?? "";
}

function select(choices: RoomChoice[], chosen: (key: string) => void): HTMLSelectElement {
  const element = make("select", { autocomplete: "off" }, ...choices.map(({ key, words }) => make("option", { value: key }, words)));
  element.addEventListener("change", () => chosen(element.value));
  return element;
}
