// Keeping: the plan on every change, and reduced copies of the pictures, on this machine alone.

/** A picture as it is kept. */
export interface Kept {
  name: string;
  image: Blob;
}

const PLAN = "overmantel.plan";
const COPIES = "copies";

/** The plan of last time, if there is one and the browser lets pages keep things. */
export function keptPlan(): string | null {
  try {
    return localStorage.getItem(PLAN);
  } catch {
    return null;
  }
}

/** Keeps the plan; false where the browser does not let it. */
export function keepPlan(text: string): boolean {
  try {
    localStorage.setItem(PLAN, text);
    return true;
  } catch {
    return false;
  }
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
