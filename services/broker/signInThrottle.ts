/** Wrong secrets of one probe from one address that are free; each one after that doubles the wait. Ours. */
const freeFailures = 3;
const firstWaitMs = 1_000;
const longestWaitMs = 5 * 60_000;
/** Wrong sign-ins of one address, whatever the names, in this long. Ours. */
const mostPerAddress = 60;
const addressWindowMs = 60_000;
const mostRemembered = 10_000;

/** Slows down those who keep signing in wrongly. Times are given by the caller, in ms of any steady clock. */
export interface SignInThrottle {
  mayTry(address: string, probeId: string, nowMs: number): boolean;
  failed(address: string, probeId: string, nowMs: number): void;
  succeeded(address: string, probeId: string): void;
}

/**
 * Waits are counted per address and name together: one probe with a stale secret must not lock out its neighbours, which
 * often share one address, and a stranger elsewhere must not lock out the probe itself. An address that tries many names
 * is stopped as a whole, except for the names that have signed in from it before.
 */
export function createSignInThrottle(): SignInThrottle {
  const failures = new Map<string, { count: number; notBeforeMs: number }>();
  const addresses = new Map<string, { count: number; sinceMs: number }>();
  const trusted = new Set<string>();
  const bound = (remembered: { size: number; clear(): void }) => {
    if (remembered.size >= mostRemembered) remembered.clear();
  };
  return {
    mayTry(address, probeId, nowMs) {
      const key = keyOf(address, probeId);
      if (nowMs < (failures.get(key)?.notBeforeMs ?? 0)) return false;
      const ofAddress = addresses.get(address);
      const isCrowded =
        ofAddress !== undefined &&
        ofAddress.count >= mostPerAddress &&
        nowMs - ofAddress.sinceMs < addressWindowMs;
      return !isCrowded || trusted.has(key);
    },
    failed(address, probeId, nowMs) {
      const key = keyOf(address, probeId);
      const count = (failures.get(key)?.count ?? 0) + 1;
      bound(failures);
      failures.set(key, { count, notBeforeMs: nowMs + waitAfter(count) });
      const known = addresses.get(address);
      const isSameWindow = known !== undefined && nowMs - known.sinceMs < addressWindowMs;
      bound(addresses);
      addresses.set(
        address,
        isSameWindow ? { ...known, count: known.count + 1 } : { count: 1, sinceMs: nowMs },
      );
    },
    succeeded(address, probeId) {
      const key = keyOf(address, probeId);
      failures.delete(key);
      bound(trusted);
      trusted.add(key);
    },
  };
}

function waitAfter(failureCount: number): number {
  if (failureCount <= freeFailures) return 0;
  return Math.min(longestWaitMs, firstWaitMs * 2 ** (failureCount - freeFailures - 1));
}

/** Neither part may hold a NUL: MQTT forbids it in names, addresses have none. */
function keyOf(address: string, probeId: string): string {
  return `${address}\0${probeId}`;
}
