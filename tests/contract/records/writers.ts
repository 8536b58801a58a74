import { expect, test } from 'vitest';
import type { Records } from '../../../services/records/port.ts';
import {
  placementValues,
  sampleAlarm,
  sampleMessage,
  sampleTransition,
  sampleYard,
  startMs,
  stepOf,
} from './samples.ts';
import { type FreshDatabase, type RecordsInTest, useRecords } from './useRecords.ts';

export function describeWriters(fresh: FreshDatabase): void {
  const at = useRecords(fresh);

  test('of many who change an alarm at once one wins each round, and no text is written by a loser', async () => {
    const sample = await sampleYard(at.records);
    const alarm = sampleAlarm(sample);
    await at.records.alarms.commit(stepOf({ alarms: [alarm] }));
    const writers = await several(at, 4);
    for (let version = 2; version <= 6; version++) {
      const step = () =>
        stepOf({
          alarms: [{ ...alarm, version }],
          transitions: [sampleTransition(alarm)],
          messages: [sampleMessage(sample)],
        });
      const outcomes = await Promise.allSettled(writers.map((writer) => writer.alarms.commit(step())));
      expect(outcomes.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
      expect(reasons(outcomes)).toEqual(Array(3).fill('VersionConflict'));
    }
    expect(await at.records.alarms.transitions(alarm.id)).toHaveLength(5);
    expect(await at.records.messages.list(sample.yard.id, 100)).toHaveLength(5);
  });

  test('of many who raise the same new alarm at once one wins', async () => {
    const sample = await sampleYard(at.records);
    const writers = await several(at, 4);
    const raise = (writer: Records, code: string) =>
      writer.alarms.commit(stepOf({ alarms: [sampleAlarm(sample, { code })] }));
    const outcomes = await Promise.allSettled(writers.map((writer, index) => raise(writer, `A${index}`)));
    expect(reasons(outcomes)).toEqual(Array(3).fill('VersionConflict'));
    expect(await at.records.alarms.list(sample.yard.id)).toHaveLength(1);
  });

  test('writers that touch the same alarms in opposite order do not hang', async () => {
    const sample = await sampleYard(at.records);
    const alarms = [sampleAlarm(sample), sampleAlarm(sample, { code: 'B2', condition: 'stalled' })];
    await at.records.alarms.commit(stepOf({ alarms }));
    const writers = await several(at, 4);
    const next = alarms.map((alarm) => ({ ...alarm, version: 2 }));
    const outcomes = await Promise.allSettled(
      writers.map((writer, index) =>
        writer.alarms.commit(stepOf({ alarms: index % 2 === 0 ? next : next.toReversed() })),
      ),
    );
    expect(reasons(outcomes)).toEqual(Array(3).fill('VersionConflict'));
  });

  test('of many who place one channel at once one succeeds', async () => {
    const sample = await sampleYard(at.records);
    const writers = await several(at, 4);
    const toMs = startMs + 1000;
    const outcomes = await Promise.allSettled(
      writers.map((writer) => writer.placements.create(placementValues(sample, { toMs }))),
    );
    expect(reasons(outcomes)).toEqual(Array(3).fill('RecordsError'));
    expect(await at.records.placements.list(sample.yard.id)).toHaveLength(1);
  });

  test('of many who save limits at once one succeeds', async () => {
    const { pile } = await sampleYard(at.records);
    const writers = await several(at, 4);
    const change = {
      pileId: pile.id,
      overrides: {},
      reason: '',
      by: null,
      savedMs: startMs,
      expectedVersion: 0,
    };
    const outcomes = await Promise.allSettled(writers.map((writer) => writer.limits.save(change)));
    expect(reasons(outcomes)).toEqual(Array(3).fill('VersionConflict'));
    expect(await at.records.limits.history(pile.id)).toHaveLength(1);
  });

  test('of many who follow a set-up link at once one gets in', async () => {
    const writers = await several(at, 4);
    for (const tokenHash of ['a', 'b', 'c']) {
      await at.records.setupLinks.create({
        tokenHash,
        purpose: 'sign-in',
        personId: null,
        expiresMs: startMs + 1,
      });
      const found = await Promise.all(writers.map((writer) => writer.setupLinks.use(tokenHash, startMs)));
      expect(found.filter((link) => link !== null)).toHaveLength(1);
    }
  });

  test('many claim a full outbox at once: each text goes to one of them and none is left', async () => {
    const sample = await sampleYard(at.records);
    const messages = Array.from({ length: 60 }, (_, index) =>
      sampleMessage(sample, { address: `+${index}` }),
    );
    await at.records.alarms.commit(stepOf({ messages }));
    const writers = await several(at, 4);
    const taken: string[] = [];
    const drain = async (writer: Records, claimant: string) => {
      for (let quiet = 0; quiet < 3; ) {
        const claim = { nowMs: startMs, limit: 5, leaseMs: 60_000, claimant };
        const batch = await writer.messages.claimDue(claim);
        taken.push(...batch.map(({ id }) => id));
        quiet = batch.length === 0 ? quiet + 1 : 0;
      }
    };
    await Promise.all(writers.map((writer, index) => drain(writer, `notifier ${index}`)));
    expect(taken).toHaveLength(60);
    expect(new Set(taken).size).toBe(60);
  });

  test('reports of attempts that come at once are all counted', async () => {
    const sample = await sampleYard(at.records);
    await at.records.alarms.commit(stepOf({ messages: [sampleMessage(sample)] }));
    const [message] = await at.records.messages.list(sample.yard.id, 1);
    const messageId = message?.id ?? 'missing';
    const times = { startedMs: startMs, finishedMs: startMs };
    const attempt = { messageId, attempt: 1, ...times, outcome: 'retry' as const, detail: '' };
    const next = { state: 'waiting' as const, nextAttemptMs: startMs, gatewayReference: null };
    const writers = await several(at, 4);
    const reports = writers.flatMap((writer) =>
      [1, 2, 3].map(() => writer.messages.finishAttempt(attempt, next)),
    );
    await Promise.all(reports);
    expect(await at.records.messages.get(messageId)).toMatchObject({ attempts: 12 });
    expect(await at.records.messages.attempts(messageId)).toHaveLength(12);
  });

  test('no count in the quarantine is lost or given twice', async () => {
    const { yard } = await sampleYard(at.records);
    const writers = await several(at, 4);
    const item = {
      receivedMs: 1,
      topic: 't',
      probe: null,
      reason: 'r',
      payloadStart: new Uint8Array(1),
      payloadBytes: 1,
    };
    await Promise.all(
      writers.flatMap((writer) => Array.from({ length: 10 }, () => writer.quarantine.add(item))),
    );
    expect(await at.records.quarantine.total()).toBe(40);
    const ids = (await at.records.quarantine.list(yard.id, 100)).map(({ id }) => id);
    expect(ids).toEqual(Array.from({ length: 40 }, (_, index) => 40 - index));
  });
}

async function several(at: RecordsInTest, number: number): Promise<Records[]> {
  const others = await Promise.all(Array.from({ length: number - 1 }, () => at.another()));
  return [at.records, ...others];
}

const reasons = (outcomes: readonly PromiseSettledResult<unknown>[]): string[] =>
  outcomes.flatMap((outcome) => (outcome.status === 'rejected' ? [String(outcome.reason.name)] : []));
