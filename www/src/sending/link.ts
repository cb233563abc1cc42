// The plan as a link: made, measured, copied and handed on; and the plan of a link that came.

import type { Desk, LinkView } from "../generated/overmantel.js";
import { keepAddress, keptAddress } from "../kept/local.js";
import { button, copyText, line } from "../page/controls.js";
import { known, make } from "../page/dom.js";
import { reason } from "../page/error.js";
import { Saying } from "../page/saying.js";
import { isPublished, pageAddress } from "./address.js";

/** What the page does for it. */
export interface Linking {
  /** Opens the plan of a link. */
  open(text: string): void;
  /** Something to say in the line below the drawing. */
  say(text: string): void;
}

/** Device pixels to a module of a QR code. */
const MODULE_PX = 4;

/** Where links are made and opened. */
export class Links {
  private readonly details = known<HTMLDetailsElement>("send");
  private readonly steps = make("fieldset", {});
  private readonly means = make("p", {});
  private readonly link = make("input", { type: "text", readonly: true, "aria-label": "The link", spellcheck: "false" });
  private readonly acts = make("p", {});
  private readonly window = button("Open it in a new window", () => window.open(this.link.value, "_blank", "noopener"));
  private readonly square = make("canvas", { role: "img", "aria-label": "The link as a QR code" });
  private readonly figure = make("figure", {}, this.square, make("figcaption", {}, "The link as a QR code: point a phone at the screen"));
  private readonly wrong = make("p", { class: "note error" });
  private readonly alarm = new Saying(this.wrong, "alert");
  /** What is copied and handed on: a link, or a text with one. */
  private text = "";
  /** Which step is chosen. */
  private step = 1;

  constructor(
    private readonly desk: Desk,
    private readonly page: Linking,
  ) {
    const address = line("Address of a published page of Overmantel", keptAddress(), "https://…", "url");
    address.input.addEventListener("change", () => {
      keepAddress(address.input.value.trim());
      this.show();
    });
    const unpublished = make(
      "div",
      {},
      make("p", {}, "You opened this page from a disk, so a link to it works nowhere else: copy the text below and send it, and its first line says how to open it. With the address of a published Overmantel page it becomes a link."),
      address.element,
    );
    unpublished.hidden = isPublished();
    const came = line("Open a link you were sent", "", "paste it here", "text");
    came.input.addEventListener("input", () => {
      // One letter is no link; a pasted one is opened at once.
      if (came.input.value.trim().length < 8) return;
      this.page.open(came.input.value);
      came.input.value = "";
    });
    this.acts.append(
      button("Copy the link", () => this.copy()),
      ...("share" in navigator ? [button("Share it…", () => void this.share())] : []),
      this.window,
    );
    this.details.append(
      unpublished,
      make("p", {}, "The whole plan is in the link, after the #. Browsers send that part to nobody. Your pictures stay here."),
      this.steps,
      this.wrong,
      this.means,
      this.link,
      this.acts,
      this.figure,
      came.element,
    );
    this.details.addEventListener("toggle", () => this.show());
    this.link.addEventListener("focus", () => this.link.select());
  }

  /** Shows the link of the plan as it is now. */
  show(): void {
    if (!this.details.open) return;
    let links: LinkView[] = [];
    try {
      links = this.desk.links(pageAddress());
      this.wrong.hidden = true;
      this.alarm.say("");
    } catch (error) {
      this.wrong.hidden = false;
      this.alarm.say(`${reason(error)}.`);
    }
    const had = this.steps.contains(document.activeElement);
    this.steps.replaceChildren(make("legend", {}, "Of the pictures, the link includes:"), ...links.map((link, index) => this.choice(link, index)));
    if (had) this.steps.querySelector<HTMLInputElement>("input:checked")?.focus();
    const chosen = links[Math.min(this.step, links.length - 1)];
    for (const part of [this.steps, this.means, this.link, this.acts]) part.hidden = chosen === undefined;
    this.figure.hidden = chosen?.has_square !== true;
    if (chosen === undefined) return;
    this.link.value = chosen.address;
    this.window.hidden = pageAddress() === "";
    this.text = chosen.address;
    this.means.textContent = `${chosen.length}: ${chosen.means}.`;
    const context = this.square.getContext("2d", { alpha: false });
    if (chosen.has_square && context) this.desk.draw_square(this.square, context, chosen.address, MODULE_PX);
    this.square.style.inlineSize = `${this.square.width / Math.max(1, Math.min(2, devicePixelRatio))}px`;
  }

  private choice({ words, length }: LinkView, index: number): HTMLElement {
    const input = make("input", { type: "radio", name: "sketches", value: String(index) });
    input.checked = index === this.step;
    input.addEventListener("change", () => {
      this.step = index;
      this.show();
    });
    return make("label", {}, input, make("span", {}, words, " ", make("small", {}, length)));
  }

  private copy(): void {
    copyText(this.text, "The link is on the clipboard.", this.page.say);
  }

  private async share(): Promise<void> {
    try {
      await navigator.share(pageAddress() === "" ? { title: document.title, text: this.text } : { title: document.title, url: this.text });
    } catch (error) {
      // Who thinks better of it has done nothing wrong.
      if (!(error instanceof DOMException && error.name === "AbortError")) this.page.say("This browser could not share the link; copy it instead.");
    }
  }
}
