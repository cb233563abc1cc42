// The browser's database, on this machine alone: all plans that are kept, reduced copies of their pictures, and a photograph of a room.

import type { SentEntry } from "../generated/overmantel.js";
import { noteRefusal } from "./refusal.js";

/** A picture as it is kept. */
export interface Kept {
  /** Its name, file and size: two plans may call different pictures alike. */
  name: string;
  image: Blob;
}

/** A picture as the database has it: as bytes, since WebKit's private windows take no blobs. Copies of before are blobs. */
interface Stored {
  name: string;
  image: Blob | ArrayBuffer;
  type?: string;
}

/** A plan as it is kept. */
export interface KeptEntry {
  id: string;
  title: string;
  text: string;
  /** When it was changed last, as the clock of this machine has it. */
  changed: number;
}

/** A proposal that was sent, as it is kept. */
export interface KeptSent extends SentEntry {
  /** By its mark. */
  id: string;
  /** When it was sent, as the clock of this machine has it. */
  sent: number;
}

const COPIES = "copies";
const PLANS = "plans";
const SENT = "sent";
const ROOMS = "rooms";
/** There is one. */
const ROOM = "room";

/** A photograph of a room as it is kept: its pixels alone, and what is marked in them. */
export interface KeptRoom {
  image: Blob;
  marks: string;
}

/** The same as the database has it. */
interface StoredRoom {
  id: string;
  image: ArrayBuffer;
  type: string;
  marks: string;
}

function open(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open("overmantel", 4);
    request.onupgradeneeded = () => {
      for (const [name, keyPath] of [[COPIES, "name"], [PLANS, "id"], [SENT, "id"], [ROOMS, "id"]] as const) {
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
    noteRefusal(error);
    return otherwise;
  }
}

/** Keeps a reduced copy of a picture; false where there is no room or no leave. */
export function keepCopy(kept: Kept): Promise<boolean> {
  return attempt(async () => {
    const { name, image } = kept;
    const stored: Stored = { name, image: await image.arrayBuffer(), type: image.type };
    await within(COPIES, "readwrite", (store) => store.put(stored));
    return true;
  }, false);
}

/** The kept copy of a picture, if there is one. */
export function keptCopy(name: string): Promise<Kept | undefined> {
  return attempt(async () => {
    const stored = await within(COPIES, "readonly", (store) => store.get(name) as IDBRequest<Stored | undefined>);
    if (stored === undefined || stored.image instanceof Blob) return stored as Kept | undefined;
    return { name: stored.name, image: new Blob([stored.image], { type: stored.type ?? "" }) };
  }, undefined);
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

/** Keeps a proposal that was sent; false where there is no room or no leave. */
export function keepSent(entry: KeptSent): Promise<boolean> {
  return attempt(async () => (await within(SENT, "readwrite", (store) => store.put(entry)), true), false);
}

/** All proposals that were sent, the last first. */
export async function keptSent(): Promise<KeptSent[]> {
  const entries = await attempt(() => within(SENT, "readonly", (store) => store.getAll() as IDBRequest<KeptSent[]>), []);
  return entries.sort((one, other) => other.sent - one.sent);
}

/** Gives up a proposal that was sent. */
export function dropSent(id: string): Promise<boolean> {
  return attempt(async () => (await within(SENT, "readwrite", (store) => store.delete(id)), true), false);
}

/** Keeps the photograph of a room in place of the one before; false where there is no room or no leave. */
export function keepRoom({ image, marks }: KeptRoom): Promise<boolean> {
  return attempt(async () => {
    const stored: StoredRoom = { id: ROOM, image: await image.arrayBuffer(), type: image.type, marks };
    await within(ROOMS, "readwrite", (store) => store.put(stored));
    return true;
  }, false);
}

/** The photograph of a room that is kept, if there is one. */
export function keptRoom(): Promise<KeptRoom | undefined> {
  return attempt(async () => {
    const stored = await within(ROOMS, "readonly", (store) => store.get(ROOM) as IDBRequest<StoredRoom | undefined>);
    return stored && { image: new Blob([stored.image], { type: stored.type }), marks: stored.marks };
  }, undefined);
}

/** Gives up the photograph of a room. */
export function dropRoom(): Promise<boolean> {
  return attempt(async () => (await within(ROOMS, "readwrite", (store) => store.delete(ROOM)), true), false);
}
