import type { HeatRecordResult, HeatRecordView } from '../../../shared/api/types.ts';
import {
  day,
  dayAndTime,
  display,
  duration,
  fullDay,
  percent,
  temperature,
  temperatureNumber,
} from '../../common/format.ts';
import { conditionWords, journalWords, measures, positionWords } from '../../common/words.ts';
import { shownValue } from '../pile/journalEntry.ts';
import { WideTable } from '../planner/WideTable.tsx';
import { channelName, heatIds } from './channelName.ts';
import { HeatCalendar } from './HeatCalendar.tsx';
import type { RecordDay } from './recordDays.ts';
import { recordWords } from './words.ts';

/** The stretches in which every place counted was at temperature. */
export function Stretches({
  result,
  days,
}: {
  readonly result: HeatRecordResult;
  readonly days: readonly RecordDay[];
}) {
  return (
    <section aria-labelledby="evidence-title">
      <h2 id="evidence-title">{recordWords.evidence}</h2>
      <HeatCalendar days={days} />
      {result.evidence.length === 0 ? (
        <p>{recordWords.noEvidence}</p>
      ) : (
        <>
          <p class="hint">{recordWords.evidenceHint}</p>
          <WideTable label={recordWords.evidence}>
            <thead>
              <tr>
                <th scope="col">{recordWords.from}</th>
                <th scope="col">{recordWords.to}</th>
                <th scope="col">{recordWords.hours}</th>
                <th scope="col">{recordWords.coolest}</th>
                <th scope="col">{recordWords.withReadings}</th>
              </tr>
            </thead>
            <tbody>
              {result.evidence.map(({ fromMs, toMs, hours, minimumCelsius, coverageFraction }) => (
                <tr key={fromMs}>
                  <td>{dayAndTime(fromMs)}</td>
                  <td>{dayAndTime(toMs)}</td>
                  <td>{hours.toFixed(1)}</td>
                  <td>{temperature(minimumCelsius)}</td>
                  <td>{percent(coverageFraction)}</td>
                </tr>
              ))}
            </tbody>
          </WideTable>
        </>
      )}
    </section>
  );
}

/** One row a day: every channel, hours counted, hours silent, work done. */
export function Days({
  record,
  days,
}: {
  readonly record: HeatRecordView;
  readonly days: readonly RecordDay[];
}) {
  const ids = heatIds(record);
  return (
    <section aria-labelledby="days-title">
      <h2 id="days-title">{recordWords.days}</h2>
      <p class="hint">{recordWords.dayHint(display.value.unit)}</p>
      <WideTable label={recordWords.days}>
        <thead>
          <tr>
            <th scope="col">{recordWords.day}</th>
            {ids.map((id) => (
              <th key={id} scope="col">
                {channelName(record, id)}
              </th>
            ))}
            <th scope="col">{recordWords.counted}</th>
            <th scope="col">{recordWords.silent}</th>
            <th scope="col">{recordWords.work}</th>
          </tr>
        </thead>
        <tbody>
          {days.map(({ startMs, ends, counted, silent, journal }) => (
            <tr key={startMs} class={counted > 0 ? 'is-hot' : ''}>
              <th scope="row">{day(startMs)}</th>
              {ids.map((id) => (
                <td key={id}>{endsWords(ends.get(id))}</td>
              ))}
              <td>{counted === 0 ? '' : measures.hours(counted.toFixed(1))}</td>
              <td>{silent === 0 ? '' : measures.hours(silent)}</td>
              <td>{journal.map(({ kind }) => journalWords[kind]).join(', ')}</td>
            </tr>
          ))}
        </tbody>
      </WideTable>
    </section>
  );
}

function endsWords(ends: readonly [number, number] | undefined): string {
  if (ends === undefined) return '-';
  const [lowest, highest] = ends.map((value) => temperatureNumber(value));
  return lowest === highest ? lowest! : recordWords.lowestToHighest(lowest!, highest!);
}

/** Where nobody knows. */
export function Gaps({ record }: { readonly record: HeatRecordView }) {
  return (
    <section aria-labelledby="gaps-title">
      <h2 id="gaps-title">{recordWords.gaps}</h2>
      {record.gaps.length === 0 ? (
        <p>{recordWords.noGaps}</p>
      ) : (
        <>
          <p class="hint">{recordWords.gapsHint}</p>
          <ul>
            {record.gaps.map(({ placementId, fromMs, toMs }) => (
              <li key={`${placementId} ${fromMs}`}>
                {channelName(record, placementId)}: {dayAndTime(fromMs)} - {dayAndTime(toMs)} (
                {duration(toMs - fromMs)})
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

/** Every probe that stood in the pile, how much of it was heard, and when it was last held against a known temperature. */
export function ProbesTable({
  record,
  result,
}: {
  readonly record: HeatRecordView;
  readonly result: HeatRecordResult;
}) {
  return (
    <section aria-labelledby="probes-title">
      <h2 id="probes-title">{recordWords.probes}</h2>
      <WideTable label={recordWords.probes}>
        <thead>
          <tr>
            <th scope="col">{recordWords.position}</th>
            <th scope="col">{recordWords.probe}</th>
            <th scope="col">{recordWords.stood}</th>
            <th scope="col">{recordWords.heard}</th>
            <th scope="col">{recordWords.checked}</th>
            <th scope="col">{recordWords.due}</th>
          </tr>
        </thead>
        <tbody>
          {record.placements.map(({ id, channel, fromMs, toMs }) => {
            const checked = record.calibrations.find((one) => one.channel === channel);
            const heard = result.coverage.find((one) => one.channel === channel);
            return (
              <tr key={id}>
                <th scope="row">{channelName(record, id)}</th>
                <td class="channel-urn">{channel}</td>
                <td>
                  {fullDay(fromMs)} - {toMs === null ? recordWords.now : fullDay(toMs)}
                </td>
                <td>{heard === undefined ? '-' : percent(heard.coverageFraction)}</td>
                <td>{checked === undefined ? recordWords.neverChecked : fullDay(checked.calibratedMs)}</td>
                <td>{dueWords(checked?.dueMs ?? null, record.madeMs)}</td>
              </tr>
            );
          })}
        </tbody>
      </WideTable>
    </section>
  );
}

function dueWords(dueMs: number | null, nowMs: number): string {
  if (dueMs === null) return '-';
  return dueMs < nowMs ? recordWords.overdue(fullDay(dueMs)) : fullDay(dueMs);
}

/** What people did, and what asked for them. */
export function Story({ record }: { readonly record: HeatRecordView }) {
  return (
    <>
      <section aria-labelledby="work-title">
        <h2 id="work-title">{recordWords.turnings}</h2>
        {record.journal.length === 0 && <p>{recordWords.noJournal}</p>}
        <ul>
          {record.journal.map(({ id, timeMs, kind, value, depthMetres, note, by }) => (
            <li key={id}>
              {dayAndTime(timeMs)} <strong>{journalWords[kind]}</strong>{' '}
              {shownValue({ kind, value, depthMetres })} {note}
              {by && `, ${by}`}
            </li>
          ))}
        </ul>
      </section>
      <section aria-labelledby="record-alarms-title">
        <h2 id="record-alarms-title">{recordWords.alarms}</h2>
        {record.alarms.length === 0 && <p>{recordWords.noAlarms}</p>}
        <ul>
          {record.alarms.map(({ condition, fromMs, toMs, seenBy }) => (
            <li key={`${condition} ${fromMs}`}>
              <strong>{conditionWords[condition]}</strong> {dayAndTime(fromMs)} -{' '}
              {toMs === null ? recordWords.still : dayAndTime(toMs)}
              {seenBy && `, ${recordWords.seenBy(seenBy)}`}
            </li>
          ))}
        </ul>
      </section>
    </>
  );
}

/** What nobody may read into it. */
export function DoesNotSay({ result }: { readonly result: HeatRecordResult }) {
  return (
    <section aria-labelledby="not-said-title">
      <h2 id="not-said-title">{recordWords.limits}</h2>
      <ul>
        {[...recordWords.standing, ...result.cautions].map((line) => (
          <li key={line}>{line}</li>
        ))}
        {result.preconditions.map(({ words, state }) => (
          <li key={words}>{recordWords.open(words, recordWords.openStates[state])}</li>
        ))}
      </ul>
      <p class="hint">
        {recordWords.zones}: {result.zonesCounted.map((zone) => positionWords[zone]).join(', ')}
      </p>
    </section>
  );
}
