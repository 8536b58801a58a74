const dayMs = 86_400_000;

/** `Retry-After` as an instant: seconds or an HTTP date (RFC 9110 section 10.2.3); at most a day is believed. Null: none. */
export function retryAfterMs(header: string | null | undefined, nowMs: number): number | null {
  if (header === null || header === undefined) return null;
  const wait = /^\d+$/.test(header.trim()) ? Number(header) * 1000 : Date.parse(header) - nowMs;
  return Number.isFinite(wait) && wait > 0 ? nowMs + Math.min(wait, dayMs) : null;
}

/** Answers that say "not now" rather than "no". */
export function isPassing(status: number): boolean {
  return status >= 500 || [408, 425, 429].includes(status);
}

/** `notBeforeMs` for a retry outcome, when the answer names one. */
export function notBefore(header: string | null | undefined, nowMs: number): { notBeforeMs?: number } {
  const notBeforeMs = retryAfterMs(header, nowMs);
  return notBeforeMs === null ? {} : { notBeforeMs };
}
