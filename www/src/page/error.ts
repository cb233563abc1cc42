// Faults in words.

/** What a fault says. */
export function reason(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
