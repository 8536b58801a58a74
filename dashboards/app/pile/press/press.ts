/** One press of a button as it waits on this device, and what becomes of it. Nothing here touches browser or network. */

/** What is sent. An entry of the journal may bring a photo, sent after it. */
export type Deed =
  | { readonly kind: 'journal'; readonly pileId: string; readonly body: Readonly<Record<string, unknown>> }
  | {
      readonly kind: 'alarm';
      readonly alarmId: string;
      readonly action: 'acknowledge' | 'shelve';
      readonly body: Readonly<Record<string, unknown>>;
    };

export interface Press {
  /** Sent along: however often it arrives, it counts once. */
  readonly key: string;
  readonly pileId: string;
  /** Who pressed: it is never sent in another's name. */
  readonly personId: string;
  /** What it was, in words: "Watered, 20 litres". */
  readonly words: string;
  readonly deed: Deed;
  readonly photo: Blob | null;
  /** This device's clock: until then it can be undone by not sending it. */
  readonly holdUntilMs: number;
  readonly tries: number;
  readonly nextTryMs: number;
  /** The service will not have it: shown until a person has read why. */
  readonly refusal: string | null;
}

/** How long a wrong press can be undone before it leaves. */
export const holdMs = 6000;

/** Pauses between tries, the last one again and again. */
const pausesMs = [2000, 5000, 15_000, 30_000, 60_000] as const;

/** What came of a try: `status` is 0 when the service was not reached. */
export interface Outcome {
  readonly status: number;
  readonly detail: string;
}

/** Refusals that may be over later: no link, signed out, too many, not ready, failed. */
export function mayWorkLater({ status }: Outcome): boolean {
  return status === 0 || status === 401 || status === 408 || status === 429 || status >= 500;
}

/** A press after a try that failed: it waits, or is refused. */
export function afterFailure(press: Press, outcome: Outcome, nowMs: number): Press {
  if (!mayWorkLater(outcome)) return { ...press, tries: press.tries + 1, refusal: outcome.detail };
  const pause = pausesMs[Math.min(press.tries, pausesMs.length - 1)]!;
  return { ...press, tries: press.tries + 1, nextTryMs: nowMs + pause };
}

/** Whether it is to be sent now by this person. In one hurry (the page closes) what is held leaves too. */
export function isDue(press: Press, personId: string | null, nowMs: number, hurry = false): boolean {
  if (press.refusal !== null || press.personId !== personId) return false;
  return hurry || (nowMs >= press.holdUntilMs && nowMs >= press.nextTryMs);
}

/** Letters and digits at random; also where the page is not served over HTTPS. */
export function newPressKey(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
