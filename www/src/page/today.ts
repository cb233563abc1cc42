// The day that it is where the page is open.

/** Today, such as 2026-11-30. */
export function today(): string {
  return new Date(Date.now() - new Date().getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
}
