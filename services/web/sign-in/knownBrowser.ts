import { createHmac, randomBytes, timingSafeEqual } from 'node:crypto';
import type { Records } from '../../records/port.ts';

/**
 * A mark left in a browser after a good sign-in. It lets nobody in; it only gives that browser its own count of failed
 * tries, so that a stranger guessing at an account cannot keep its owner waiting. Signed, because a made-up mark would
 * give a stranger a fresh count each time.
 */
export interface KnownBrowsers {
  mark(login: string): string;
  /** The mark's own part when it is ours and belongs to this account; else null. */
  check(mark: string | undefined, login: string): string | null;
}

const keyName = 'web.known-browser-key';

/** Makes the signing key at first use and keeps it in the records, so that marks outlive a restart. */
export async function openKnownBrowsers(records: Records): Promise<KnownBrowsers> {
  const key = Buffer.from(await storedKey(records), 'base64url');
  const sign = (nonce: string, login: string) =>
    createHmac('sha256', key).update(`${nonce} ${login.toLowerCase()}`).digest();
  return {
    mark(login) {
      const nonce = randomBytes(16).toString('base64url');
      return `${nonce}.${sign(nonce, login).toString('base64url')}`;
    },
    check(mark, login) {
      const [nonce, signature] = (mark ?? '').split('.');
      if (nonce === undefined || signature === undefined) return null;
      const given = Buffer.from(signature, 'base64url');
      const right = sign(nonce, login);
      return given.length === right.length && timingSafeEqual(given, right) ? nonce : null;
    },
  };
}

async function storedKey(records: Records): Promise<string> {
  const stored = await records.marks.get(keyName);
  if (stored !== null) return stored;
  const made = randomBytes(32).toString('base64url');
  await records.marks.set(keyName, made);
  return made;
}
