/** Several judges of one yard by lease: whoever has it judges on exactly where the other left off, and no other stores. */
import { pino } from 'pino';
import { afterEach, expect, test } from 'vitest';
import { rulesFromAfar } from '../../services/rules/rulesFromAfar.ts';
import { type Rules, startRules } from '../../services/rules/startRules.ts';
import { createInProcessBus } from '../../services/sharing/inProcessBus.ts';
import type { WorkSharing } from '../../services/sharing/port.ts';
import { startSharing } from '../../services/sharing/shareWork.ts';
import type { AlarmEvent } from '../../shared/alarms/alarm.ts';
import { eventually } from '../helpers/eventually.ts';
import { type JudgedYard, startJudgedYard } from '../helpers/judgedYard.ts';

const logger = pino({ level: 'silent' });
const config = { settleSeconds: 60, tickMilliseconds: 3_600_000, publicUrl: () => 'http://yard.test' };
const cleanUp: (() => unknown)[] = [];
afterEach(async () => {
  for (const undo of cleanUp.splice(0).reverse()) await undo();
});

interface Judge {
  readonly rules: Rules;
  readonly sharing: WorkSharing;
  holds(): boolean;
  /** As if the process slept: no sign of life is given, and what it holds it still believes to hold. */
  sleep(): void;
  wake(): void;
}

/** A judge like one process has, with leases that change hands within a second. */
async function startJudge(yard: JudgedYard): Promise<Judge> {
  const { records, series } = yard;
  let isAsleep = false;
  const awake = async () => {
    if (isAsleep) throw new Error('asleep');
  };
  const leases = { ...records.leases, list: async () => awake().then(records.leases.list) };
  const processes = {
    ...records.processes,
    beat: async (id: string, standing: string) => awake().then(() => records.processes.beat(id, standing)),
  };
  const nothing = {
    isBrokerConnected: null,
    isForwarding: null,
    localSpaceUsedFraction: null,
    channels: null,
  };
  const standing = () => ({ services: ['rules'], ...nothing });
  const times = { beatMilliseconds: 40, lapseMilliseconds: 400 };
  const sharing = startSharing({ leases, processes, standing, logger, ...times });
  const share = sharing.share({ kind: 'rules', pieces: async () => [yard.yard.id] });
  const clock = { nowMs: yard.nowMs };
  const rules = await startRules({ records, series, clock, config, logger, share, onCommitted: () => {} });
  cleanUp.push(async () => {
    await rules.stop();
    await sharing.stop();
  });
  const holds = () => share.isOurs(yard.yard.id);
  return { rules, sharing, holds, sleep: () => (isAsleep = true), wake: () => (isAsleep = false) };
}

/** The core's course: cool, over the ceiling, back, over it again. */
const course = (minutes: number) => (minutes < 60 ? 60 : minutes < 200 ? 73 : minutes < 330 ? 62 : 74);

/** Everything people see of a yard's judgement, without ids. */
async function outcome({ records, piles, yard, texts }: JudgedYard) {
  const alarms = await records.alarms.forPile(piles[0]!.id);
  const histories = await Promise.all(alarms.map(({ id }) => records.alarms.transitions(id)));
  return {
    alarms: alarms.map(({ condition, state, occurrence }) => ({ condition, state, occurrence })),
    steps: histories.flat().map(({ event, atMs, from, to }) => ({ event, atMs, from, to })),
    texts: (await texts()).map(({ text }) => text.replaceAll(/\/a\/\S+/g, '/a/...')),
    statuses: await records.statuses
      .forYard(yard.id)
      .then((all) => all.map(({ coreCelsius }) => coreCelsius)),
  };
}

test('judging goes from one to another again and again as if one had done it all', {
  timeout: 60_000,
}, async () => {
  const single = await startJudgedYard();
  cleanUp.push(single.stop);
  await single.live(0, 420, course);

  const yard = await startJudgedYard();
  cleanUp.push(yard.stop);
  await yard.rules().stop();
  const judges = [await startJudge(yard), await startJudge(yard), await startJudge(yard)];
  for (let minutes = 0; minutes < 420; minutes += 5) {
    await yard.store(0, minutes, course(minutes));
    yard.setMinute(minutes + 2);
    await eventually('somebody holds the yard', () => judges.some(({ holds }) => holds()));
    // All of them judge: those that do not hold it, or slept through their lease, must change nothing.
    await Promise.all(judges.map(({ rules }) => rules.settle()));
    if (minutes % 70 !== 35) continue;
    const holder = judges.find(({ holds }) => holds())!;
    holder.sleep();
    await eventually('another takes it', () => judges.some((judge) => judge !== holder && judge.holds()));
    await holder.rules.settle();
    holder.wake();
  }
  const told = await outcome(yard);
  expect(told.alarms.map(({ condition }) => condition)).toContain('too-hot-ceiling');
  expect(told.texts.length).toBeGreaterThan(0);
  const alone = await outcome(single);
  const anonymous = (text: string) => text.replaceAll(/\b[A-Z]\d\b/g, '?');
  expect({ ...told, texts: told.texts.map(anonymous) }).toEqual({
    ...alone,
    texts: alone.texts.map(anonymous),
  });
});

test('what a person does elsewhere is done once by whoever judges, or taken back when nobody does', async () => {
  const yard = await startJudgedYard();
  cleanUp.push(yard.stop);
  await yard.rules().stop();
  const judge = await startJudge(yard);
  await eventually('it holds the yard', judge.holds);
  for (let minutes = 0; minutes < 90; minutes += 5) {
    await yard.store(0, minutes, 73);
    yard.setMinute(minutes + 2);
    await judge.rules.settle();
  }
  const { records, series } = yard;
  const changes = createInProcessBus(() => {});
  changes.listen('deeds', judge.rules.lookForDeeds);
  const clock = { nowMs: yard.nowMs };
  const afar = rulesFromAfar({
    ...{ records, series, clock, config, logger, changes },
    patienceMilliseconds: 1_500,
  });
  const alarm = (await yard.alarm('too-hot-ceiling'))!;
  const acknowledge: AlarmEvent = { kind: 'acknowledge', atMs: yard.nowMs(), by: yard.wren.id };
  expect(await afar.act(alarm.id, acknowledge)).toMatchObject({ state: 'acknowledged' });
  const reset: AlarmEvent = { kind: 'reset', atMs: yard.nowMs(), by: yard.wren.id };
  await expect(afar.act(alarm.id, reset)).rejects.toMatchObject({
    name: 'RecordsError',
    field: 'event',
  });
  await expect(afar.act('nobody', acknowledge)).rejects.toMatchObject({ field: 'alarmId' });
  expect(await afar.wordsFor(alarm)).toEqual(await judge.rules.wordsFor(alarm));
  expect(await afar.explain(alarm, 'C')).toEqual(await judge.rules.explain(alarm, 'C'));

  await judge.rules.stop();
  await judge.sharing.stop();
  const shelve = {
    kind: 'shelve',
    atMs: yard.nowMs(),
    by: yard.wren.id,
    untilMs: 9e12,
    reason: 'x',
  } as const;
  await expect(afar.act(alarm.id, shelve)).rejects.toMatchObject({ name: 'JudgementAway' });
  expect(await records.deeds.waiting([yard.yard.id])).toEqual([]);
  expect(await records.alarms.get(alarm.id)).toMatchObject({ state: 'acknowledged' });
});
