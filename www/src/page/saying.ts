// What is said to those who listen: a sentence or two, short enough to be listened to. The rest of a longer text stands beside it, to be read.

import { make } from "./dom.js";

/** Letters that are listened to at the most. */
const MOST = 120;
/** Letters of somebody else's name in a sentence. */
const NAME = 40;

/** A text that is parted where it is no longer listened to. */
export interface Parted {
  said: string;
  more: string;
}

/** Parts a text at the end of its first sentence or its second; a first one that is too long, where a part of it ends. */
export function parted(text: string): Parted {
  const whole = text.trim();
  const ends = [...whole.matchAll(/[.!?\u2026](?=\s|$)/g)].map(({ index }) => index + 1);
  const fits = ends.slice(0, 2).filter((end) => end <= MOST);
  if (whole.length <= MOST && (ends.length <= 2 || fits.length === 0)) return { said: whole, more: "" };
  const clauses = [...whole.slice(0, MOST).matchAll(/[:;](?=\s)/g)].map(({ index }) => index + 1);
  const end = fits.at(-1) ?? clauses.at(-1);
  if (end !== undefined) return { said: whole.slice(0, end), more: whole.slice(end).trim() };
  // What was written into a field is quoted; of a long one the ends will do.
  const shorter = whole.replace(/"([^"]+)"|\u201c([^\u201d]+)\u201d/g, (quoted) => quoted.charAt(0) + inShort(quoted.slice(1, -1)) + quoted.slice(-1));
  return shorter === whole ? { said: "There is something to read here:", more: whole } : parted(shorter);
}

/** Somebody else's name for something, as it stands in a sentence: of a long one the beginning and the end. */
export function inShort(name: string): string {
  const letters = [...name];
  return letters.length <= NAME ? name : `${letters.slice(0, NAME - 13).join("")}…${letters.slice(-12).join("")}`;
}

/** A line of which the beginning is said aloud when it changes. */
export class Saying {
  private readonly live: HTMLElement;
  private readonly rest = make("span", {});
  private text = "";

  constructor(
    place: HTMLElement,
    /** An alert interrupts. */
    role: "status" | "alert" = "status",
  ) {
    this.live = make("span", { role });
    place.replaceChildren(this.live, this.rest);
  }

  /** Says a text, unless it was just said. */
  say(text: string): void {
    if (this.text === text) return;
    this.text = text;
    const { said, more } = parted(text);
    this.live.textContent = said;
    this.rest.textContent = more === "" ? "" : ` ${more}`;
  }

  /** Shows a text that was said before, and is not said again. */
  show(text: string): void {
    if (this.text === text) return;
    this.text = text;
    this.live.textContent = "";
    this.rest.textContent = text;
  }
}
