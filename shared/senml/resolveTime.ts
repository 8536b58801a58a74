import { SenmlError } from './senmlError.ts';

/** Time sums below this many seconds are relative to now (RFC 8428 section 4.5.3): 2^28, 1978-07-04T21:24:16Z. */
export const firstAbsoluteSecond = 2 ** 28;

/** Range of an ECMAScript date, so that every time we store can also be shown. */
const latestMs = 8.64e15;

export interface ResolvedTime {
  readonly timeMs: number;
  readonly timeSeconds: number;
}

/**
 * Absolute time of a record. The choice between relative and absolute is made on the **sum** of `bt` and `t`, so a base
 * time and an offset may cross the threshold together. `nowMs` is when the pack arrived. Throws SenmlError.
 */
export function resolveTime(sumSeconds: number, nowMs: number, recordIndex: number): ResolvedTime {
  const isRelative = sumSeconds < firstAbsoluteSecond;
  const timeSeconds = isRelative ? nowMs / 1000 + sumSeconds : sumSeconds;
  const timeMs = Math.round(timeSeconds * 1000);
  if (Math.abs(timeMs) <= latestMs) return { timeMs, timeSeconds };
  const allowed = 'seconds relative to now, or POSIX seconds within the range of a calendar date';
  throw new SenmlError({ code: 'time', recordIndex, field: 't', value: `bt + t = ${sumSeconds}`, allowed });
}
