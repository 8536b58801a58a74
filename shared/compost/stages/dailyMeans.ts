import type { Sample } from '../../readings/reading.ts';
import { SegmentCursor } from '../sanitisation/segmentCursor.ts';
import type { ZoneSeries } from '../sanitisation/series.ts';
import type { DayMeans } from './exothermicIndex.ts';

const msPerDay = 86_400_000;

export interface DaysWindow {
  readonly fromMs: number;
  readonly days: number;
  readonly maximumGapMs: number;
  /** A day watched for less than this is not measured (ours: 18 h keeps day and night in it). */
  readonly leastHours: number;
}

/** Means of core and air for each 24 hours from the start of the window; null for a day watched too little. */
export function dailyMeans(core: ZoneSeries, air: ZoneSeries, window: DaysWindow): DayMeans[] {
  const [coreDays, airDays] = [meansByDay(core, window), meansByDay(air, window)];
  return coreDays.map((coreCelsius, day) => ({ coreCelsius, airCelsius: airDays[day] ?? null }));
}

function meansByDay(series: ZoneSeries, window: DaysWindow): (number | null)[] {
  const heldMs = new Float64Array(window.days);
  const area = new Float64Array(window.days);
  const cursor = new SegmentCursor(series, window.maximumGapMs);
  for (; cursor.fromMs < window.fromMs + window.days * msPerDay; cursor.advance()) {
    for (let fromMs = Math.max(cursor.fromMs, window.fromMs); fromMs < cursor.toMs; ) {
      const day = Math.floor((fromMs - window.fromMs) / msPerDay);
      const toMs = Math.min(cursor.toMs, window.fromMs + (day + 1) * msPerDay);
      if (day < window.days) {
        heldMs[day]! += toMs - fromMs;
        area[day]! += (toMs - fromMs) * cursor.mean;
      }
      fromMs = toMs;
    }
  }
  return Array.from(heldMs, (held, day) =>
    held >= window.leastHours * 3_600_000 ? area[day]! / held : null,
  );
}

/** A series of instants from bare samples, e.g. the yard's air. */
export function instantsOf(channel: string, samples: readonly Sample[], intervalMs: number): ZoneSeries {
  return { position: 'air', channel, samples, represents: 'instants', intervalMs, fromMs: null, toMs: null };
}
