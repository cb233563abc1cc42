// Keeping: the plan on every change, and reduced copies of the pictures, on this machine alone.

/** A picture as it is kept. */
export interface Kept {
  /** Its name, file and size: two plans may call different pictures alike. */
  name: string;
  image: Blob;
}

/** A plan as it is kept. */
export interface KeptEntry {
  id: string;
  title: string;
  text: string;
  /** When it was changed last, as the clock of this machine has it. */
  changed: number;
}

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
const COPIES = "copies";
const PLANS = "plans";

/** Whether what could not be kept found no room; otherwise there was no leave. */
let isFull = false;

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
    isFull = error instanceof DOMException && error.name === "QuotaExceededError";
    return false;
  }
}

/** Why something could not be kept, as the end of a sentence. */
export function refusal(): string {
  return isFull ? "this browser has no room left" : "this browser does not let the page keep anything";
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

function open(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open("overmantel", 2);
    request.onupgradeneeded = () => {
      for (const [name, keyPath] of [[COPIES, "name"], [PLANS, "id"]] as const) {
        if (!request.result.objectStoreNames.contains(name)) request.result.createObjectStore(name, { keyPath });
      }
    };
    request.onsuccess = () => {
      // Another window may need a newer form of it.
      request.result.onversionchange = () => request.result.close();
      resolve(request.result);
    };
    request.onblocked = () => reject(new Error("another window holds the database"));
    request.onerror = () => reject(request.error ?? new Error("no database"));
  });
}

async function within<T>(name: string, mode: IDBTransactionMode, act: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  const database = await open();
  try {
    return await new Promise<T>((resolve, reject) => {
      const transaction = database.transaction(name, mode, { durability: "strict" });
      const request = act(transaction.objectStore(name));
      transaction.oncomplete = () => resolve(request.result);
      transaction.onerror = () => reject(transaction.error ?? new Error("not kept"));
      transaction.onabort = () => reject(transaction.error ?? new Error("not kept"));
    });
  } finally {
    database.close();
  }
}

/** Does something with the database; the other value where there is no room or no leave. */
async function attempt<T>(act: () => Promise<T>, otherwise: T): Promise<T> {
  try {
    return await act();
  } catch (error) {
    isFull = error instanceof DOMException && error.name === "QuotaExceededError";
    return otherwise;
  }
}

/** Keeps a reduced copy of a picture; false where there is no room or no leave. */
export function keepCopy(kept: Kept): Promise<boolean> {
  return attempt(async () => (await within(COPIES, "readwrite", (store) => store.put(kept)), true), false);
}

/** The kept copy of a picture, if there is one. */
export function keptCopy(name: string): Promise<Kept | undefined> {
  return attempt(() => within(COPIES, "readonly", (store) => store.get(name) as IDBRequest<Kept | undefined>), undefined);
}

/** Gives up the copies whose names are not among these. */
export async function sweepCopies(wanted: Set<string>): Promise<void> {
  const names = await attempt(() => within(COPIES, "readonly", (store) => store.getAllKeys()), []);
  for (const name of names) {
    if (!wanted.has(String(name))) await attempt(() => within(COPIES, "readwrite", (store) => store.delete(name)), undefined);
  }
}

/** Keeps a plan in its place; false where there is no room or no leave. */
export function keepEntry(entry: KeptEntry): Promise<boolean> {
  return attempt(async () => (await within(PLANS, "readwrite", (store) => store.put(entry)), true), false);
}

/** All plans that are kept, the last changed first. */
export async function keptEntries(): Promise<KeptEntry[]> {
  const entries = await attempt(() => within(PLANS, "readonly", (store) => store.getAll() as IDBRequest<KeptEntry[]>), []);
  return entries.sort((one, other) => other.changed - one.changed);
}

/** Gives up a plan that was kept. */
export function dropEntry(id: string): Promise<boolean> {
  return attempt(async () => (await within(PLANS, "readwrite", (store) => store.delete(id)), true), false);
}
