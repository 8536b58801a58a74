import type { Clock } from '../../clock.ts';
import type { Records, SetupLink } from '../../records/port.ts';
import { hashToken, newToken } from './tokens.ts';

const hourMs = 3_600_000;
/** How long each kind of one-time link is good for. */
const goodForMs: Readonly<Record<SetupLink['purpose'], number>> = {
  'first-setup': 24 * hourMs,
  'set-password': 24 * hourMs,
  'sign-in': hourMs,
};

const screenOf: Readonly<Record<SetupLink['purpose'], string>> = {
  'first-setup': 'set-up',
  'set-password': 'set-password',
  'sign-in': 'sign-in',
};

export interface MadeLink {
  readonly url: string;
  readonly expiresMs: number;
}

/**
 * Makes a one-time link. Its token stands in the address's fragment, which browsers keep to themselves: it reaches no
 * log, no proxy and no chat program that fetches addresses for a preview. Only its hash is stored.
 */
export async function makeLink(
  records: Records,
  purpose: SetupLink['purpose'],
  personId: string | null,
  realNowMs: number,
  publicUrl: string,
): Promise<MadeLink> {
  const token = newToken();
  const expiresMs = realNowMs + goodForMs[purpose];
  await records.setupLinks.create({ tokenHash: hashToken(token), purpose, personId, expiresMs });
  return { url: `${publicUrl}/#/${screenOf[purpose]}/${token}`, expiresMs };
}

/**
 * At a first start (no person yet) makes the one-time set-up link for the caller to print, in place of any printed
 * before; null when the yard has people. `clock` is real time, also in the demo.
 */
export async function ensureFirstSetup(
  records: Records,
  clock: Clock,
  publicUrl: string,
): Promise<string | null> {
  if ((await records.people.count()) > 0) return null;
  await records.setupLinks.removeAll('first-setup');
  return (await makeLink(records, 'first-setup', null, clock.nowMs(), publicUrl)).url;
}

/** One-time sign-in link of a person, e.g. for the demo's browser. `clock` is real time, also in the demo. */
export async function createSignInLink(
  records: Records,
  personId: string,
  clock: Clock,
  publicUrl: string,
): Promise<string> {
  return (await makeLink(records, 'sign-in', personId, clock.nowMs(), publicUrl)).url;
}
