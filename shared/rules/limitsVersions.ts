import type { PileLimits } from './pileSubject.ts';

/** A saved version cannot be gone back to; says why in words for people. */
export class RestoreError extends Error {
  override readonly name = 'RestoreError';
}

/**
 * The overrides of an earlier version, to be saved again as the next one: history is never rewritten, so every alarm
 * still points at the limits that judged it. `saved` are all saved versions; version 0 is the method's defaults.
 * Without `toVersion` the last change is undone. Throws RestoreError.
 */
export function overridesToRestore(
  saved: readonly PileLimits[],
  current: number,
  toVersion: number = current - 1,
): PileLimits['overrides'] {
  if (current === 0)
    throw new RestoreError('The limits are the method’s defaults: there is nothing to undo.');
  if (toVersion === current) throw new RestoreError(`Version ${current} is in force already.`);
  if (toVersion === 0) return {};
  const version = saved.find((one) => one.version === toVersion);
  if (version === undefined)
    throw new RestoreError(`There is no version ${toVersion}; allowed: 0 to ${current - 1}.`);
  return version.overrides;
}
