// Keeping: the plan on every change, and reduced copies of the pictures, on this machine alone.

/** A picture as it is kept. */
export interface Kept {
  name: string;
  image: Blob;
}

const PLAN = "overmantel.plan";
/** The last plan that was drawn without a fault. */
const DRAWN = "overmantel.drawn";
/** Stands while a kept plan is drawn for the first time: where it still stands at a start, that plan broke the page. */
const TRIAL = "overmantel.trial";
/** The user's own list of stock. */
const STOCK = "overmantel.stock";
const COPIES = "copies";

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
  } catch {
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

/** Keeps the plan; false where the browser does not let it. */
export function keepPlan(text: string): boolean {
  return set(PLAN, text);
}

/** Keeps the user's own list of stock, or none; false where the browser does not let it. */
export function keepStock(text: string | null): boolean {
  return set(STOCK, text);
}

/** The user's own list of stock. */
export function keptStock(): string | null {
  return get(STOCK);
}

/** Says that the plan has been drawn without a fault. */
export function keepDrawn(text: string): void {
  set(DRAWN, text);
  set(TRIAL, null);
}

function open(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open("overmantel", 1);
    request.onupgradeneeded = () => request.result.createObjectStore(COPIES, { keyPath: "name" });
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error("no database"));
  });
}

async function within<T>(mode: IDBTransactionMode, act: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  const database = await open();
  try {
    return await new Promise<T>((resolve, reject) => {
      const transaction = database.transaction(COPIES, mode);
      const request = act(transaction.objectStore(COPIES));
      transaction.oncomplete = () => resolve(request.result);
      transaction.onerror = () => reject(transaction.error ?? new Error("not kept"));
      transaction.onabort = () => reject(transaction.error ?? new Error("not kept"));
    });
  } finally {
    database.close();
  }
}

/** Keeps a reduced copy of a picture; false where there is no room or no leave. */
export async function keepCopy(kept: Kept): Promise<boolean> {
  try {
    await within("readwrite", (store) => store.put(kept));
    return true;
  } catch {
    return false;
  }
}

/** The kept copy of a picture, if there is one. */
export async function keptCopy(name: string): Promise<Kept | undefined> {
  try {
    return (await within("readonly", (store) => store.get(name) as IDBRequest<Kept | undefined>)) ?? undefined;
  } catch {
    return undefined;
  }
}
