import type { HeatRecordResult, HeatRecordView, JournalEntryView } from '../../../shared/api/types.ts';

const hourMs = 3_600_000;

/** One day of a record in the yard's zone, as an inspector's table has it. */
export interface RecordDay {
  readonly startMs: number;
  /** Lowest and highest hourly mean by placement; left out where nothing was heard. */
  readonly ends: ReadonlyMap<string, readonly [lowest: number, highest: number]>;
  /** Hours that count toward the rule. */
  readonly counted: number;
  /** Hours in which a probe that stood in the pile said nothing good; the most of any probe. */
  readonly silent: number;
  readonly journal: readonly JournalEntryView[];
}

/** Every day from building to the end of the record. `dayOf` names the yard's own day of a moment. */
export function recordDays(
  record: HeatRecordView,
  result: HeatRecordResult,
  dayOf: (timeMs: number) => string,
): RecordDay[] {
  const found = new Map<string, { startMs: number; hours: number[] }>();
  const { startsMs } = record.hours;
  const index = new Map(startsMs.map((startMs, row) => [startMs, row]));
  for (
    let startMs = Math.floor(record.pile.startedMs / hourMs) * hourMs;
    startMs < record.nowMs;
    startMs += hourMs
  ) {
    const name = dayOf(startMs);
    const day = found.get(name) ?? { startMs, hours: [] };
    found.set(name, day);
    day.hours.push(startMs);
  }
  const journal = Map.groupBy(record.journal, ({ timeMs }) => dayOf(timeMs));
  return [...found].map(([name, { startMs, hours }]) => ({
    startMs,
    ends: endsOf(
      record,
      hours.flatMap((hour) => index.get(hour) ?? []),
    ),
    counted: hours.reduce((sum, hour) => sum + countedIn(result, hour), 0),
    silent: silentIn(record, hours),
    journal: journal.get(name) ?? [],
  }));
}

function endsOf({ hours }: HeatRecordView, rows: readonly number[]): RecordDay['ends'] {
  const ends = new Map<string, readonly [number, number]>();
  for (const [id, means] of Object.entries(hours.means)) {
    const values = rows.flatMap((row) => means[row] ?? []);
    if (values.length > 0) ends.set(id, [Math.min(...values), Math.max(...values)]);
  }
  return ends;
}

/** Share of an hour inside the stretches that count. */
export function countedIn({ evidence }: HeatRecordResult, startMs: number): number {
  return evidence.reduce((sum, { fromMs, toMs }) => {
    const insideMs = Math.min(toMs, startMs + hourMs) - Math.max(fromMs, startMs);
    return sum + Math.max(0, insideMs) / hourMs;
  }, 0);
}

function silentIn({ gaps }: HeatRecordView, hours: readonly number[]): number {
  const byPlacement = Map.groupBy(gaps, ({ placementId }) => placementId);
  const counts = [...byPlacement.values()].map(
    (own) => hours.filter((hour) => own.some(({ fromMs, toMs }) => fromMs <= hour && hour < toMs)).length,
  );
  return Math.max(0, ...counts);
}
