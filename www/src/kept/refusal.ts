// Why the browser did not keep something: it has no room, or gives no leave.

/** What the browser's errors mean, by their names. */
const MEANINGS = new Map([
  ["QuotaExceededError", "this browser has no room left"],
  ["VersionError", "a newer version of this page keeps its plans in this browser; open that one, or load this page again from where it came"],
]);

let why: string | undefined;

/** Takes note of what the browser said when it did not keep something. */
export function noteRefusal(error: unknown): void {
  why = error instanceof DOMException ? MEANINGS.get(error.name) : undefined;
}

/** Why something could not be kept, as the end of a sentence. */
export function refusal(): string {
  return why ?? "this browser does not let the page keep anything";
}
