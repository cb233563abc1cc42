// Why the browser did not keep something: it has no room, or gives no leave.

let isFull = false;

/** Takes note of what the browser said when it did not keep something. */
export function noteRefusal(error: unknown): void {
  isFull = error instanceof DOMException && error.name === "QuotaExceededError";
}

/** Why something could not be kept, as the end of a sentence. */
export function refusal(): string {
  return isFull ? "this browser has no room left" : "this browser does not let the page keep anything";
}
