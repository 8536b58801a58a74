import { isIPv6 } from 'node:net';

/** Failures remembered for one key. */
interface Tally {
  failures: number;
  blockedUntilMs: number;
  lastMs: number;
}

export interface SignInThrottle {
  /** Seconds to wait before this try may be made; 0 = now. Counts nothing. */
  waitSeconds(attempt: SignInAttempt, nowMs: number): number;
  /** Counts a try as failed; called before the password is checked, so that tries made at once all count. */
  failed(attempt: SignInAttempt, nowMs: number): void;
  /** Takes the try just counted back. */
  succeeded(attempt: SignInAttempt): void;
}

export interface SignInAttempt {
  /** As typed; unknown names are counted too, so that the answer does not tell which exist. */
  readonly login: string;
  readonly address: string;
  /** Mark of a browser that has signed in to this account before (see `knownBrowser.ts`); null for a stranger. */
  readonly knownBrowser: string | null;
}

interface Rule {
  readonly free: number;
  readonly longestSeconds: number;
}

/** After `free` failures each further one doubles the wait, up to the longest. */
const rules = {
  /** One address against one account. */
  pair: { free: 5, longestSeconds: 900 },
  /** One address against any account. */
  address: { free: 30, longestSeconds: 900 },
  /**
   * All strangers together against one account. Guessing from many addresses is slowed to a few tries an hour, and a
   * browser that signed in before is not counted here: a stranger cannot lock anyone out of their own phone.
   */
  account: { free: 50, longestSeconds: 900 },
  /** A browser that signed in before has its own count (OWASP: device cookies). */
  browser: { free: 10, longestSeconds: 900 },
} satisfies Record<string, Rule>;

const forgetAfterMs = 24 * 3_600_000;
const mostKeys = 20_000;

/** Slows guessing per account and per address without letting a stranger lock someone out (ASVS 6.3.1). */
export function createSignInThrottle(): SignInThrottle {
  const tallies = new Map<string, Tally>();
  return {
    waitSeconds(attempt, nowMs) {
      const until = keysOf(attempt).map(([key]) => tallies.get(key)?.blockedUntilMs ?? 0);
      return Math.max(0, Math.ceil((Math.max(...until) - nowMs) / 1000));
    },
    failed(attempt, nowMs) {
      for (const [key, rule] of keysOf(attempt)) count(tallies, key, rule, nowMs);
    },
    succeeded(attempt) {
      // The account's and the address's tallies stay: an attacker with one account of their own must not clear them.
      const [[ownKey], ...others] = keysOf(attempt) as [[string, Rule], ...[string, Rule][]];
      tallies.delete(ownKey);
      for (const [key] of others) uncount(tallies, key);
    },
  };
}

/** The tally of exactly this person at exactly this place comes first. */
function keysOf({ login, address, knownBrowser }: SignInAttempt): [string, Rule][] {
  const account = login.toLowerCase();
  const place = network(address);
  if (knownBrowser !== null) return [[`browser ${account} ${knownBrowser}`, rules.browser]];
  return [
    [`pair ${account} ${place}`, rules.pair],
    [`address ${place}`, rules.address],
    [`account ${account}`, rules.account],
  ];
}

function count(tallies: Map<string, Tally>, key: string, rule: Rule, nowMs: number): void {
  const old = tallies.get(key);
  const failures = old === undefined || nowMs - old.lastMs > forgetAfterMs ? 1 : old.failures + 1;
  const waitSeconds =
    failures < rule.free ? 0 : Math.min(rule.longestSeconds, 2 ** Math.min(20, failures - rule.free));
  // Taken out and put back so that the map stays in order of use and the oldest can be dropped first.
  tallies.delete(key);
  tallies.set(key, { failures, blockedUntilMs: nowMs + waitSeconds * 1000, lastMs: nowMs });
  if (tallies.size > mostKeys) tallies.delete(tallies.keys().next().value!);
}

function uncount(tallies: Map<string, Tally>, key: string): void {
  const tally = tallies.get(key);
  if (tally !== undefined) tally.failures -= 1;
}

/** A household or server gets a whole /64 of IPv6: count it as one. */
function network(address: string): string {
  if (!isIPv6(address) || address.startsWith('::ffff:')) return address.replace(/^::ffff:/, '');
  const [head = '', tail] = address.split('::');
  const start = head === '' ? [] : head.split(':');
  const end = tail === undefined || tail === '' ? [] : tail.split(':');
  const zeros = tail === undefined ? 0 : Math.max(0, 8 - start.length - end.length);
  return [...start, ...Array<string>(zeros).fill('0'), ...end].slice(0, 4).join(':');
}
