// What the browser keeps at once, on this machine alone: the plan at work on every change, and what is in use beside it.

import { noteRefusal } from "./refusal.js";

/** What a studio's page keeps is kept apart: a browser takes all pages opened from a disk for one, and a buyer starts from her pictures. */
const mark = document.querySelector<HTMLElement>(".demo-plan[data-mark]")?.dataset["mark"];
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
/** The address of a published page. */
const ADDRESS = "overmantel.address";
/** The link that was opened last: it has what is shown of pictures that are not here. */
const LINK = `${OWN}.link`;

function get(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

function set(key: string, text: string | null): boolean {
  try {
    if (text === null) localStorage.removeItem(key);
    else localStorage.setItem(key, text);
    return true;
  } catch (error) {
    noteRefusal(error);
    return false;
  }
}

/** What was kept last time, if anything was and the browser lets pages keep things. */
export interface KeptPlan {
  text: string;
  /** Whether the plan of last time broke the page, and this is the one before it. */
  isEarlier: boolean;
}

/** The plan to begin with, and the mark that it is being tried. */
export function keptPlan(): KeptPlan | null {
  const isEarlier = get(TRIAL) !== null;
  const text = get(isEarlier ? DRAWN : PLAN);
  set(TRIAL, "");
  return text === null ? null : { text, isEarlier };
}

/** Says that the plan has broken the page: the next start takes the one before it. */
export function markBroken(): void {
  set(TRIAL, "");
}

/** Keeps the plan with the time of its last change; false where the browser does not let it, and then the one before stays with its own. */
export function keepPlan(text: string, changed: number): boolean {
  return set(PLAN, text) && set(CHANGED, String(changed));
}

/** When the kept plan was changed last; nothing where it is not known. */
export function planChanged(): number | undefined {
  const changed = get(CHANGED);
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
  return get(CURRENT);
}

/** Says which of the kept plans is at work, or none. */
export function setCurrentPlan(id: string | null): void {
  set(CURRENT, id);
}
