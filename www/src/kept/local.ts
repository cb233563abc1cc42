// What the browser keeps at once, on this machine alone: the plan at work on every change, and what is in use beside it.
//
// Each window has a place of its own, which a reload finds again; a new window goes on with the plan that was changed last in any.

import { noteRefusal } from "./refusal.js";

/** What a studio's page or a proposal keeps is kept apart: a browser takes all pages opened from a disk for one. */
const mark = document.querySelector<HTMLElement>("script[data-mark]")?.dataset["mark"];
const OWN = mark === undefined ? "overmantel" : `overmantel.${mark}`;
const PLAN = `${OWN}.plan`;
/** When it was changed last, as the clock of this machine has it. */
const CHANGED = `${OWN}.changed`;
/** The last plan that was drawn without a fault. */
const DRAWN = `${OWN}.drawn`;
/** Stands while a kept plan is drawn for the first time: where it still stands at a start, that plan broke the page. */
const TRIAL = `${OWN}.trial`;
/** The user's own list of stock. */
const STOCK = `${OWN}.stock`;
/** The price book that is open. */
const BOOK = `${OWN}.prices`;
/** Which of the kept plans is at work. */
const CURRENT = `${OWN}.current`;
/** The steps of this window's session. */
const STEPS = `${OWN}.steps`;
/** The address of a published page. */
const ADDRESS = "overmantel.address";
/** How much of the specification was told last, and which of its paragraphs were open. */
const DEPTH = `${OWN}.depth`;
const OPEN = "overmantel.open";
/** How wide a card is on this screen. */
const CARD = "overmantel.card";
/** What is answered to the proposal inside this page, and the plans of its options as they are now. */
const REPLY = `${OWN}.reply`;
/** The proposal that is being made. */
const DRAFT = `${OWN}.draft`;
/** What the plan at work was ordered by. */
const ORDERED = `${OWN}.ordered`;
/** The link that was opened last: it has what is shown of pictures that are not here. */
const LINK = `${OWN}.link`;

/** Whether this is the page of a studio or a proposal, and not one's own. */
export const isHandedOut = mark !== undefined;

type Place = "localStorage" | "sessionStorage";

function get(key: string, place: Place = "localStorage"): string | null {
  try {
    return globalThis[place].getItem(key);
  } catch {
    return null;
  }
}

function set(key: string, text: string | null, place: Place = "localStorage"): boolean {
  try {
    if (text === null) globalThis[place].removeItem(key);
    else globalThis[place].setItem(key, text);
    return true;
  } catch (error) {
    // What only this window keeps is not missed anywhere else.
    if (place === "localStorage") noteRefusal(error);
    return false;
  }
}

/** What this window keeps; until it has kept anything, what the last window did. */
function ofWindow(key: string): string | null {
  return get(key, get(PLAN, "sessionStorage") === null ? "localStorage" : "sessionStorage");
}

/** Keeps something for this window, and for the next one that is opened. */
function setBoth(key: string, text: string | null): boolean {
  set(key, text, "sessionStorage");
  return set(key, text);
}

/** What was kept last time, if anything was and the browser lets pages keep things. */
export interface KeptPlan {
  text: string;
  /** Whether the plan of last time broke the page, and this is the one before it. */
  isEarlier: boolean;
  /** Whether this window had it before, and was only loaded again. */
  isReload: boolean;
}

/** The plan to begin with, and the mark that it is being tried. */
export function keptPlan(): KeptPlan | null {
  const isEarlier = get(TRIAL) !== null;
  const isReload = get(PLAN, "sessionStorage") !== null;
  const text = isEarlier ? get(DRAWN) : ofWindow(PLAN);
  set(TRIAL, "");
  return text === null ? null : { text, isEarlier, isReload };
}

/** Says that the plan has broken the page: the next start takes the one before it. */
export function markBroken(): void {
  set(TRIAL, "");
}

/** Keeps the plan with the time of its last change; false where the browser does not let it, and then the one before stays with its own. */
export function keepPlan(text: string, changed: number): boolean {
  return setBoth(PLAN, text) && setBoth(CHANGED, String(changed));
}

/** When the kept plan was changed last; nothing where it is not known. */
export function planChanged(): number | undefined {
  const changed = ofWindow(CHANGED);
  return changed === null ? undefined : Number(changed);
}

/** Tells when another window keeps a plan, and which of the list it is: a studio's page and one's own have the list in common. */
export function whenPlanIsKeptElsewhere(told: (text: string, id: string | null) => void): void {
  addEventListener("storage", (event) => {
    const own = /^(overmantel(?:\.[0-9a-f]{8})?)\.plan$/.exec(event.key ?? "")?.[1];
    if (own !== undefined && event.newValue !== null) told(event.newValue, get(`${own}.current`));
  });
}

/** Keeps the user's own list of stock, or none; false where the browser does not let it. */
export function keepStock(text: string | null): boolean {
  return set(STOCK, text);
}

/** The user's own list of stock. */
export function keptStock(): string | null {
  return get(STOCK);
}

/** Keeps the price book that is open, or none; false where the browser does not let it. */
export function keepBook(text: string | null): boolean {
  return set(BOOK, text);
}

/** The price book that was open. */
export function keptBook(): string | null {
  return get(BOOK);
}

/** Keeps the address of a published page. */
export function keepAddress(address: string): void {
  set(ADDRESS, address);
}

/** The address of a published page, or nothing. */
export function keptAddress(): string {
  return get(ADDRESS) ?? "";
}

/** Keeps how much of the specification is told. */
export function keepDepth(depth: string): void {
  set(DEPTH, depth);
}

/** How much of the specification was told last; nothing where nobody has chosen. */
export function keptDepth(): string | null {
  return get(DEPTH);
}

/** Keeps which paragraphs of the specification are open. */
export function keepOpen(paragraphs: string[]): void {
  set(OPEN, paragraphs.join(" "));
}

/** Which paragraphs of the specification were open; nothing where nobody has opened or closed any. */
export function keptOpen(): string[] | undefined {
  return get(OPEN)?.split(" ");
}

/** Keeps how wide a card, or what else was held to it, is on this screen, in CSS pixels, and how many device pixels such a pixel had then. */
export function keepCard(width: string, ratio: string, held: string): void {
  set(CARD, `${width} ${ratio} ${held}`);
}

/** What was held to this screen, and how wide it is there; nothing where it was not measured, or was at another ratio of pixels. */
export function keptCard(ratio: string): { width: string; held: string } | undefined {
  const [width, then, held = "card"] = get(CARD)?.split(" ") ?? [];
  return width !== undefined && then === ratio ? { width, held } : undefined;
}

/** Keeps what is answered to the proposal inside this page; false where the browser does not let it. */
export function keepReply(reply: string): boolean {
  return set(REPLY, reply);
}

/** What was answered so far. */
export function keptReply(): string | null {
  return get(REPLY);
}

/** Keeps the proposal that is being made. */
export function keepDraft(draft: string): boolean {
  return set(DRAFT, draft);
}

/** The proposal that is being made. */
export function keptDraft(): string | null {
  return get(DRAFT);
}

/** Keeps what the plan at work was ordered by, or nothing. */
export function keepOrdered(ordered: string | null): void {
  setBoth(ORDERED, ordered);
}

/** What the plan at work was ordered by. */
export function keptOrdered(): string | null {
  return ofWindow(ORDERED);
}

/** Keeps the link that was opened last. */
export function keepLink(link: string): void {
  set(LINK, link);
}

/** The link that was opened last. */
export function keptLink(): string | null {
  return get(LINK);
}

/** Says that the plan has been drawn without a fault. */
export function keepDrawn(text: string): void {
  set(DRAWN, text);
  set(TRIAL, null);
}

/** The kept plan that is at work, if it is one. */
export function currentPlan(): string | null {
  return ofWindow(CURRENT);
}

/** Says which of the kept plans is at work, or none. */
export function setCurrentPlan(id: string | null): void {
  setBoth(CURRENT, id);
}

/** Keeps the steps of this window's session. */
export function keepSteps(steps: string): void {
  set(STEPS, steps, "sessionStorage");
}

/** The steps of this window's session before it was loaded again. */
export function keptSteps(): string | null {
  return get(STEPS, "sessionStorage");
}
