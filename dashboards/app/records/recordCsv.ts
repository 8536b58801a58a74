import type { HeatRecordResult, HeatRecordView } from '../../../shared/api/types.ts';
import { display, temperatureNumber } from '../../common/format.ts';
import { journalWords } from '../../common/words.ts';
import { channelName, heatIds } from './channelName.ts';
import { csvOf } from './csv.ts';
import { countedIn, type RecordDay } from './recordDays.ts';
import { recordWords } from './words.ts';

const { csv } = recordWords;

/** What the record is of, above the columns, so that a sheet that lies alone still says what it is. */
function headRows(record: HeatRecordView, result: HeatRecordResult) {
  return [
    [csv.yard, record.yard.name],
    [csv.pile, record.pile.name],
    [csv.rule, result.title],
    [csv.temperatures, display.value.unit],
    [csv.zone, display.value.timeZone],
    [],
  ];
}

const celsiusCell = (value: number | null | undefined) =>
  value === null || value === undefined ? null : Number(temperatureNumber(value, 2));

/** Every hour: mean of each channel, and how much of the hour counts toward the rule. */
export function hoursCsv(
  record: HeatRecordView,
  result: HeatRecordResult,
  localTime: (timeMs: number) => string,
): string {
  const ids = heatIds(record);
  const names = ids.map((id) => channelName(record, id));
  return csvOf([
    ...headRows(record, result),
    [csv.hourUtc, csv.hourYard, ...names, csv.countsHours],
    ...record.hours.startsMs.map((startMs, row) => [
      new Date(startMs).toISOString(),
      localTime(startMs),
      ...ids.map((id) => celsiusCell(record.hours.means[id]![row])),
      Number(countedIn(result, startMs).toFixed(2)),
    ]),
  ]);
}

/** Every day: ends of each channel, hours counted, hours silent, and what was done. */
export function daysCsv(
  record: HeatRecordView,
  result: HeatRecordResult,
  days: readonly RecordDay[],
  dayName: (timeMs: number) => string,
): string {
  const ids = heatIds(record);
  const names = ids.flatMap((id) => {
    const name = channelName(record, id);
    return [csv.lowestHour(name), csv.highestHour(name)];
  });
  return csvOf([
    ...headRows(record, result),
    [csv.day, ...names, csv.countedHours, csv.silentHours, csv.work],
    ...days.map(({ startMs, ends, counted, silent, journal }) => [
      dayName(startMs),
      ...ids.flatMap((id) => [celsiusCell(ends.get(id)?.[0]), celsiusCell(ends.get(id)?.[1])]),
      Number(counted.toFixed(1)),
      silent,
      journal.map(({ kind, note }) => `${journalWords[kind]} ${note}`.trim()).join('; '),
    ]),
  ]);
}
