// The answer to a proposal: which option, the client's own words, and the ways in which it goes back.

import type { Desk, ReplyStated, ReplyView } from "../generated/overmantel.js";
import { area, button, copyText, line } from "../page/controls.js";
import { make } from "../page/dom.js";
import { reason } from "../page/error.js";
import { fileName } from "../page/file.js";
import { today } from "../page/today.js";

/** An answer as it is so far. */
export type Replied = Omit<ReplyStated, "option" | "date">;

/** What the sheet does for it. */
export interface Replying {
  /** The answer has changed. */
  changed(reply: Replied): void;
  /** The answer as a text and as links. */
  reply(stated: Omit<ReplyStated, "option">): ReplyView;
  /** Hands a file out. */
  save(name: string, content: Blob): void;
  /** Something to say in the line below the drawing. */
  say(text: string): void;
}

const VERDICTS = [
  ["accepted", "I’d like this one"],
  ["open", "not decided yet"],
  ["declined", "none of these"],
] as const;

/** What can be decided while the rest is open, by its name in an answer. */
const DECISIONS = [
  ["size", "the sizes"],
  ["make_up", "what they are made of"],
  ["frame", "the frames"],
] as const;

/** Device pixels to a module of a QR code. */
const MODULE_PX = 3;

/** The part of a proposal in which it is answered. */
export class ReplyForm {
  readonly element = make("div", { class: "reply" });
  private readonly verdicts = VERDICTS.map(([value, words]) => ({ value, words, input: make("input", { type: "radio", name: "verdict", value, autocomplete: "off" }) }));
  private readonly boxes = DECISIONS.map(([code, words]) => ({ code, words, input: make("input", { type: "checkbox", autocomplete: "off" }) }));
  private readonly decided: HTMLElement;
  private readonly name = line("Your name", "", "", "text");
  private readonly note = area("Your message");
  private readonly mail = make("a", { class: "act" }, "Send it by mail");
  private readonly square = make("canvas", { role: "img", "aria-label": "Your answer as a QR code" });
  private readonly link = button("Copy my answer as a link", () => this.copyLink());
  private due = 0;
  private readonly figure = make("figure", {}, this.square, make("figcaption", {}, "Your answer as a QR code: the sender can point a phone at it."));

  constructor(
    private readonly desk: Desk,
    kept: Replied,
    private readonly sheet: Replying,
  ) {
    for (const { value, input } of this.verdicts) input.checked = kept.verdict === value;
    for (const { code, input } of this.boxes) input.checked = kept[code];
    this.name.input.value = kept.from;
    this.note.input.value = kept.note;
    const choice = (words: string, input: HTMLInputElement): HTMLElement => make("label", {}, input, " ", words);
    this.decided = make("fieldset", {}, make("legend", {}, "I have decided on"), ...this.boxes.map(({ words, input }) => choice(words, input)));
    const shares = "share" in navigator ? [button("Share it…", () => void this.share())] : [];
    this.element.append(
      make("h3", {}, "Your answer"),
      make("fieldset", { class: "verdict" }, make("legend", { class: "unseen" }, "What you say to this option"), ...this.verdicts.map(({ words, input }) => choice(words, input))),
      this.decided,
      this.name.element,
      this.note.element,
      make("p", {}, this.mail, ...shares, button("Save my answer as a file", () => this.save()), button("Copy my answer", () => this.copy()), this.link),
      this.figure,
    );
    this.element.addEventListener("input", () => {
      this.sheet.changed(this.replied());
      this.showDecided();
      // Links take a moment: they are made when the typing rests, and before the mail is opened.
      clearTimeout(this.due);
      this.due = setTimeout(() => this.show(), 250);
    });
    for (const before of ["pointerdown", "focus"]) this.mail.addEventListener(before, () => this.show());
  }

  /** Shows the ways in which the answer, as it is now, goes back. */
  show(): void {
    clearTimeout(this.due);
    this.showDecided();
    try {
      const { title, text, square, address } = this.reply();
      // Lines of a mail end in CR and LF (RFC 6068).
      this.mail.href = `mailto:?subject=${encodeURIComponent(title)}&body=${encodeURIComponent(text.replaceAll("\n", "\r\n"))}`;
      // Without the address of a published page there is nothing that a link could open.
      this.link.hidden = address === undefined;
      this.figure.hidden = square === undefined;
      const context = this.square.getContext("2d", { alpha: false });
      if (square !== undefined && context) this.desk.draw_square(this.square, context, square, MODULE_PX);
    } catch (error) {
      this.figure.hidden = true;
      this.sheet.say(`Your answer can't be written: ${reason(error)}.`);
    }
  }

  /** Parts are decided on only while the whole is open. */
  private showDecided(): void {
    this.decided.hidden = this.replied().verdict !== "open";
  }

  private replied(): Replied {
    const box = (wanted: string): boolean => this.boxes.some(({ code, input }) => code === wanted && input.checked);
    return {
      verdict: this.verdicts.find(({ input }) => input.checked)?.value ?? "open",
      size: box("size"),
      make_up: box("make_up"),
      frame: box("frame"),
      from: this.name.input.value.trim(),
      note: this.note.input.value.trim(),
    };
  }

  private reply(): ReplyView {
    return this.sheet.reply({ ...this.replied(), date: today() });
  }

  private save(): void {
    const { title, text } = this.reply();
    this.sheet.save(`${title}.txt`, new Blob([text], { type: "text/plain" }));
    this.sheet.say("Your answer is saved as a file. Send it back, by mail for example.");
  }

  private copy(): void {
    copyText(this.reply().text, "Your answer is on the clipboard.", this.sheet.say);
  }

  private copyLink(): void {
    copyText(this.reply().address ?? "", "The link to your answer is on the clipboard.", this.sheet.say);
  }

  private async share(): Promise<void> {
    const { title, text } = this.reply();
    const file = new File([text], fileName(`${title}.txt`), { type: "text/plain" });
    try {
      await navigator.share(navigator.canShare?.({ files: [file] }) ? { title, files: [file] } : { title, text });
    } catch (error) {
      // Who thinks better of it has done nothing wrong.
      if (!(error instanceof DOMException && error.name === "AbortError")) this.sheet.say("This browser could not share your answer; copy it instead.");
    }
  }
}
