import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Message, Records } from '../../../services/records/port.ts';
import {
  minuteMs,
  type SampleYard,
  sampleAlarm,
  sampleMessage,
  sampleYard,
  startMs,
  stepOf,
} from './samples.ts';
import { type FreshDatabase, useRecords } from './useRecords.ts';

/** What may happen: texts are written, both claimants look at once, one claimant reports on what it holds, time goes on. */
const happening = fc.oneof(
  fc.record({ kind: fc.constant('write'), address: fc.nat(2), alarm: fc.nat(1), priority: fc.nat(3) }),
  fc.record({ kind: fc.constant('claim'), limit: fc.integer({ min: 1, max: 4 }) }),
  fc.record({
    kind: fc.constant('report'),
    who: fc.nat(1),
    state: fc.constantFrom('sent', 'failed', 'waiting'),
  }),
  fc.record({ kind: fc.constant('pass'), minutes: fc.integer({ min: 0, max: 7 }) }),
);
type Happening = typeof happening extends fc.Arbitrary<infer Value> ? Value : never;

const leaseMs = 5 * minuteMs;
const priorities = ['highest', 'high', 'medium', 'low'] as const;

export function describeClaimProperty(fresh: FreshDatabase): void {
  const at = useRecords(fresh);

  test('no message is ever held by two claimants, and one alarm’s texts leave in the order written', async () => {
    const claimants = [at.records, await at.another()];
    let round = 0;
    await fc.assert(
      fc.asyncProperty(fc.array(happening, { minLength: 5, maxLength: 25 }), async (happenings) => {
        const world = await newWorld(claimants, `person${++round}`);
        for (const one of happenings) await world.let(one);
        await world.runDry();
      }),
      { numRuns: 25 },
    );
  });
}

interface Held {
  readonly message: Message;
  readonly untilMs: number;
}

async function newWorld(claimants: readonly Records[], login: string) {
  const records = claimants[0] as Records;
  const sample = await sampleYard(records, login);
  const alarms = [
    sampleAlarm(sample, { code: 'A1' }),
    sampleAlarm(sample, { code: 'A2', condition: 'stalled' }),
  ];
  await records.alarms.commit(stepOf({ alarms }));
  const held: Held[][] = claimants.map(() => []);
  let nowMs = startMs;

  async function claim(limit: number): Promise<number> {
    const claims = claimants.map((each, who) =>
      each.messages.claimDue({ nowMs, limit, leaseMs, claimant: `claimant ${who}` }),
    );
    const taken = await Promise.all(claims);
    taken.forEach((messages, who) => {
      for (const message of messages) take(message, who);
    });
    return taken.flat().length;
  }

  function take(message: Message, who: number): void {
    const live = held.flat().filter(({ untilMs }) => untilMs > nowMs);
    expect(live.map((one) => one.message.id)).not.toContain(message.id);
    const sameAlarm = live.filter((one) => one.message.alarmId === message.alarmId);
    expect(sameAlarm.map((one) => one.message.address)).not.toContain(message.address);
    // A claimant that takes again what slipped from it holds it once.
    const others = (held[who] ?? []).filter((one) => one.message.id !== message.id);
    held[who] = [...others, { message, untilMs: nowMs + leaseMs }];
  }

  async function report(who: number, state: 'sent' | 'failed' | 'waiting'): Promise<void> {
    const one = held[who]?.shift();
    if (one === undefined) return;
    const attempt = { messageId: one.message.id, attempt: one.message.attempts + 1, detail: '' };
    const outcome = state === 'sent' ? 'sent' : 'retry';
    await claimants[who]?.messages.finishAttempt(
      { ...attempt, startedMs: nowMs, finishedMs: nowMs, outcome },
      { state, nextAttemptMs: nowMs + minuteMs, gatewayReference: null, claimant: `claimant ${who}` },
    );
    // Out is out, even when a claimant that had been taken for dead says so: nobody holds the message any more.
    if (state === 'sent')
      held.forEach((all, other) => {
        held[other] = all.filter(({ message }) => message.id !== one.message.id);
      });
  }

  return {
    async let(one: Happening): Promise<void> {
      if (one.kind === 'write') await write(records, sample, alarms[one.alarm]?.id ?? null, one);
      if (one.kind === 'claim') await claim(one.limit);
      if (one.kind === 'report') await report(one.who, one.state as 'sent');
      if (one.kind === 'pass') nowMs += one.minutes * minuteMs;
    },
    /** Whatever happened, claimants that do their work empty the outbox. */
    async runDry(): Promise<void> {
      for (let pass = 0; pass < 100; pass++) {
        while ((held[0]?.length ?? 0) + (held[1]?.length ?? 0) > 0) {
          await report(0, 'sent');
          await report(1, 'sent');
        }
        if ((await claim(4)) > 0) continue;
        const dueMs = await records.messages.nextDueMs();
        if (dueMs === null) return;
        // Something said to be due now that cannot be claimed would have the notifier look without end.
        expect(dueMs).toBeGreaterThan(nowMs);
        nowMs = dueMs;
      }
      throw new Error('the outbox did not run dry');
    },
  };
}

async function write(
  records: Records,
  sample: SampleYard,
  alarmId: string | null,
  { address, priority }: { readonly address: number; readonly priority: number },
): Promise<void> {
  const message = sampleMessage(sample, {
    alarmId,
    occurrence: 1,
    address: `+${address}`,
    priority: priorities[priority] ?? 'low',
    expiresMs: Number.MAX_SAFE_INTEGER,
  });
  await records.alarms.commit(stepOf({ messages: [message] }));
}
