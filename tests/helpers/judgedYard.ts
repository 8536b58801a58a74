import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import { openRecords } from '../../services/records/openRecords.ts';
import { startRules } from '../../services/rules/startRules.ts';
import { openSqliteSeries } from '../../services/series/openSqliteSeries.ts';
import type { AlarmEvent, ConditionId } from '../../shared/alarms/alarm.ts';
import type { Quality } from '../../shared/readings/reading.ts';
import type { JournalKind } from '../../shared/yard/journal.ts';
import type { PileMethod } from '../../shared/yard/method.ts';
import type { Pile } from '../../shared/yard/yard.ts';

export const startMs = 1_780_272_000_000;
const minuteMs = 60_000;

/** Id of the probe of a pile by its number, from 0 on. */
export const probeOf = (number: number): string => `urn:dev:ow:28139bbb0b${String(number).padStart(6, '0')}`;
export const coreOf = (number: number): string => `${probeOf(number)}_core`;

/**
 * A yard on the real SQLite stores with a keeper who gets texts, piles that have one core probe each (or none), and the
 * real rules under a clock that stands until it is moved. Minutes are counted from the start.
 */
export async function startJudgedYard(
  set: { readonly piles?: number; readonly probes?: boolean; readonly method?: PileMethod } = {},
) {
  const folder = await mkdtemp(join(tmpdir(), 'tilth-yard-'));
  const records = await openRecords({ kind: 'sqlite', file: join(folder, 'records.sqlite') });
  const series = await openSqliteSeries({ file: join(folder, 'series.sqlite') });
  const yard = await records.yards.create({
    name: 'Gannet Row',
    timeZone: 'Europe/London',
    temperatureUnit: 'C',
    altitudeMetres: 3,
  });
  const wren = await records.people.create(
    {
      yardId: yard.id,
      login: 'wren',
      name: 'Wren',
      role: 'keeper',
      phone: '+441632960123',
      receivesTexts: true,
      textsFrom: 'medium',
      disabled: false,
    },
    null,
  );
  let nowMs = startMs;

  async function addPile(number: number, probes = set.probes ?? true) {
    const name = `Cage ${number + 1}`;
    const kind = { method: set.method ?? 'static-cage', startedMs: startMs, place: 'bay 3' } as const;
    const pile = await records.piles.create({ yardId: yard.id, name, ...kind });
    if (probes) await addProbe(number, pile.id);
    return pile;
  }

  async function addProbe(number: number, pileId: string): Promise<void> {
    const row = { yardId: yard.id, label: `Probe ${number + 1}`, createdMs: startMs };
    await records.probes.create({ id: probeOf(number), ...row, expectedIntervalSeconds: 300 }, 'hash');
    await place(number, pileId, startMs);
  }

  const place = (number: number, pileId: string, fromMs: number) =>
    records.placements.create({
      yardId: yard.id,
      pileId,
      channel: coreOf(number),
      quantity: 'temperature',
      position: 'core',
      depthMetres: 0.6,
      fromMs,
      toMs: null,
    });

  const start = () =>
    startRules({
      records,
      series,
      clock: { nowMs: () => nowMs },
      config: { settleSeconds: 60, tickMilliseconds: 3_600_000, publicUrl: () => 'http://yard.test' },
      onCommitted: () => {},
      logger: pino({ level: 'silent' }),
    });

  const piles: Pile[] = [];
  for (let number = 0; number < (set.piles ?? 1); number += 1) piles.push(await addPile(number));
  let rules = await start();

  const judgedYard = {
    records,
    series,
    yard,
    piles,
    wren,
    place,
    addProbe,
    rules: () => rules,
    nowMs: () => nowMs,
    /** Stores one core reading of a probe. */
    async store(number: number, minutes: number, value: number, quality: Quality = 'good'): Promise<void> {
      const timeMs = startMs + minutes * minuteMs;
      const reason = quality === 'bad' ? 'did-not-answer' : null;
      await series.append([{ channel: coreOf(number), timeMs, rawValue: value, value, quality, reason }]);
    },
    /** Lets the clock come to a minute, back or forth, and judges what is due. */
    async judgeAt(minutes: number): Promise<void> {
      nowMs = startMs + minutes * minuteMs;
      await rules.settle();
    },
    /** Lets the clock come to a minute, for judges other than its own. */
    setMinute(minutes: number): void {
      nowMs = startMs + minutes * minuteMs;
    },
    /** A reading of each probe every five minutes, judged as it comes. */
    async live(
      from: number,
      to: number,
      value: (minutes: number, number: number) => number,
      numbers: readonly number[] = piles.map((_pile, number) => number),
    ): Promise<void> {
      for (let minutes = from; minutes < to; minutes += 5) {
        for (const number of numbers) await judgedYard.store(number, minutes, value(minutes, number));
        await judgedYard.judgeAt(minutes + 2);
      }
    },
    /** Writes in a pile's journal, as of a minute, and tells the rules. */
    async write(kind: JournalKind, minutes: number, value: number | null = null, pile = piles[0]!) {
      const timeMs = startMs + minutes * minuteMs;
      const entry = { pileId: pile.id, kind, timeMs, value, note: '', by: wren.id, recordedAtMs: nowMs };
      const { id } = await records.journal.add(entry);
      rules.factsChanged(pile.id);
      return id;
    },
    /** Takes an entry back as a wrong press, and tells the rules. */
    async takeBack(entryId: string, pile = piles[0]!) {
      await records.journal.takeBack(entryId, nowMs);
      rules.factsChanged(pile.id);
    },
    alarm: (condition: ConditionId, pile = piles[0]!) =>
      records.alarms.find(yard.id, 'pile', pile.id, condition),
    async act(condition: ConditionId, event: AlarmEvent, pile = piles[0]!) {
      const alarm = await judgedYard.alarm(condition, pile);
      return rules.act(alarm!.id, event);
    },
    /** Texts written so far, oldest first. */
    texts: async () => (await records.messages.list(yard.id, 1000)).reverse(),
    /** Alarms that are not normal: condition and state. */
    async standing() {
      const alarms = await records.alarms.list(yard.id, { standingOnly: true });
      return alarms.map(({ condition, state }) => `${condition} ${state}`).sort();
    },
    /** The steps of a pile's alarm: event and minute. */
    async steps(condition: ConditionId, pile = piles[0]!) {
      const alarm = await judgedYard.alarm(condition, pile);
      if (alarm === null) return [];
      const steps = await records.alarms.transitions(alarm.id);
      return steps.map(({ event, atMs }) => [event, (atMs - startMs) / minuteMs] as const);
    },
    async restart(): Promise<void> {
      await rules.stop();
      rules = await start();
    },
    /** Stops the rules, lets the clock come to a minute, and starts them again. */
    async restartAt(minutes: number): Promise<void> {
      await rules.stop();
      nowMs = startMs + minutes * minuteMs;
      rules = await start();
    },
    async stop(): Promise<void> {
      await rules.stop();
      await series.close();
      await records.close();
      await rm(folder, { recursive: true });
    },
  };
  return judgedYard;
}

export type JudgedYard = Awaited<ReturnType<typeof startJudgedYard>>;
