import { durationWords } from '../../../shared/messages/compose.ts';
import { fitOneSegment } from '../../../shared/messages/fitOneSegment.ts';
import { roundsFor } from '../../../shared/messages/plan.ts';
import { quietUntilMs } from '../../../shared/messages/quietHours.ts';
import { isStanding } from '../../../shared/messages/statusText.ts';
import { fill, type MessageWords } from '../../../shared/messages/words/messageWords.ts';
import type { NewMessage, Records } from '../../records/port.ts';
import { timeOfDay } from '../gate/timeOfDay.ts';
import { notesTo, ownersOf, type YardDuty } from './reach.ts';

/** A stretch in which nothing was watched. */
export interface Outage {
  readonly fromMs: number;
  readonly toMs: number;
}

/** What was missed while nothing watched, to owners and whoever is on duty; not in the middle of the night. */
export async function outageTexts(records: Records, duty: YardDuty, outage: Outage): Promise<NewMessage[]> {
  const { yard, telling } = duty;
  const first = new Set(roundsFor('high', telling)[0] ?? []);
  const owners = new Set(ownersOf(duty).map(({ id }) => id));
  const told = telling.people.filter(({ id }) => first.has(id) || owners.has(id));
  const text = await outageText(records, duty, outage);
  const notBeforeMs = quietUntilMs(telling.plan, yard.timeZone, 'medium', telling.nowMs) ?? telling.nowMs;
  const key = `outage:${yard.id}:${outage.toMs}`;
  return notesTo(told, duty, {
    kind: 'service',
    key,
    text,
    priority: 'medium',
    notBeforeMs,
    goodForHours: 24,
  });
}

async function outageText(
  records: Records,
  { yard, telling }: YardDuty,
  outage: Outage,
): Promise<(words: MessageWords) => string> {
  const { fromMs, toMs } = outage;
  const [alarms, began, messages] = await Promise.all([
    records.alarms.list(yard.id, { standingOnly: true }),
    records.alarms.transitionsBetween(yard.id, fromMs, telling.nowMs + 1),
    records.messages.between(yard.id, fromMs - 86_400_000, telling.nowMs + 1),
  ]);
  const about = new Set([
    ...alarms.filter(isStanding).map(({ id }) => id),
    ...began.filter(({ to }) => to === 'unacknowledged').map(({ alarmId }) => alarmId),
  ]).size;
  const expired = messages.filter(
    ({ state, finishedMs }) => state === 'expired' && finishedMs !== null && finishedMs >= fromMs,
  ).length;
  return (all) => {
    const { watch: words } = all;
    const opening = fill(words.wasAway, {
      yard: yard.name.trim().slice(0, 24),
      ...{ from: dayAndTime(yard.timeZone, fromMs), to: dayAndTime(yard.timeZone, toMs) },
      duration: durationWords((toMs - fromMs) / 60_000, all),
    });
    const missed = about === 0 ? words.missedNothing : fill(words.missedAlarms, { count: about });
    const texts = expired === 0 ? '' : fill(words.missedTexts, { count: expired });
    return fitOneSegment([
      { text: opening, priority: 1 },
      { text: missed, priority: 2 },
      { text: texts, priority: 3 },
    ]).text;
  };
}

/** `25 Nov 02:10`: the month by name, because people read 3/4 in two ways. */
function dayAndTime(timeZone: string, atMs: number): string {
  const day = new Intl.DateTimeFormat('en-GB', { timeZone, day: 'numeric', month: 'short' }).format(atMs);
  return `${day} ${timeOfDay(timeZone, atMs)}`;
}
