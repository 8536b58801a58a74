import type { Alarm, AlarmEvent } from '../../shared/alarms/alarm.ts';
import { newId, type Records, RecordsError } from '../records/port.ts';
import type { ChangeBus } from '../sharing/port.ts';
import { createDeskLook } from './deskLook.ts';
import { type RulesOptions, settingsOf } from './options.ts';
import { JudgementAway, type RulesPort } from './port.ts';
import { readPast } from './readPast.ts';

/** Longest a person waits for whoever judges: the page is still open, and a text is answered in time. */
const patienceMs = 10_000;
const lookEveryMs = 250;

export interface AfarOptions
  extends Pick<RulesOptions, 'records' | 'series' | 'clock' | 'config' | 'logger'> {
  readonly changes: ChangeBus;
  readonly patienceMilliseconds?: number;
}

/**
 * The rules as a process sees them that does not judge itself. What people do is written down and done by whoever judges
 * the yard; what an alarm says is read from what is stored.
 */
export function rulesFromAfar(options: AfarOptions): Required<RulesPort> {
  const { changes } = options;
  const lookAt = createDeskLook(options);
  return {
    nudge: () => changes.tell({ kind: 'readings-stored' }),
    act: (alarmId, event) => askFor(options, alarmId, event),
    factsChanged: (pileId) => changes.tell({ kind: 'facts', ...(pileId === undefined ? {} : { pileId }) }),
    wordsFor: async (alarm) => (await lookAt(alarm))?.say(alarm.condition)?.words ?? null,
    explain: async (alarm, unit) => (await lookAt(alarm))?.explain(alarm.condition, unit) ?? null,
    readPast: (pileId, span) =>
      readPast({ ...options, ...settingsOf(options.config), nowMs: options.clock.nowMs() }, pileId, span),
  };
}

async function askFor(options: AfarOptions, alarmId: string, event: AlarmEvent): Promise<Alarm> {
  const { records, changes } = options;
  const alarm = await records.alarms.get(alarmId);
  if (alarm === null) throw new RecordsError('alarmId', `there is no alarm ${alarmId}`);
  const id = newId();
  await records.deeds.add({ id, yardId: alarm.yardId, alarmId, event, createdMs: Date.now() });
  changes.tell({ kind: 'deeds' });
  await answered(options, id);
  return (await records.alarms.get(alarmId)) ?? alarm;
}

/** Resolves when it is done. Rejects when it was refused, or when nobody did it and it was taken back. */
async function answered({ records, patienceMilliseconds }: AfarOptions, id: string): Promise<void> {
  const endMs = performance.now() + (patienceMilliseconds ?? patienceMs);
  while (performance.now() < endMs) {
    if (await isDone(records, id)) return;
    await new Promise((resolve) => setTimeout(resolve, lookEveryMs));
  }
  // Answered in this very moment: then it cannot be taken back, and there is an answer.
  const isTakenBack = await records.deeds.takeBack(id);
  if (isTakenBack || !(await isDone(records, id))) throw new JudgementAway();
}

async function isDone(records: Records, id: string): Promise<boolean> {
  const answer = await records.deeds.takeAnswer(id);
  if (answer?.kind === 'refused') throw new RecordsError(answer.field, answer.message);
  return answer !== null;
}
