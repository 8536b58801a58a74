import { type Alarm, priorities } from '../../../shared/alarms/alarm.ts';
import { composeStatusText, isStanding, type StatusLine } from '../../../shared/messages/statusText.ts';
import type { MessageWords } from '../../../shared/messages/words/messageWords.ts';
import type { Records } from '../../records/port.ts';
import { aboutWhat } from '../gate/nameAlarm.ts';

/** How a yard stands, in one text. */
export async function yardStatusText(records: Records, yardId: string, words: MessageWords): Promise<string> {
  const yard = await records.yards.get(yardId);
  if (yard === null) return '';
  return composeStatusText(yard.name, await statusLines(records, yardId), yard.temperatureUnit, words);
}

/** A line for each open pile, and for each probe or yard about which an alarm stands. */
export async function statusLines(records: Records, yardId: string): Promise<StatusLine[]> {
  const [piles, statuses, alarms] = await Promise.all([
    records.piles.list(yardId),
    records.statuses.forYard(yardId),
    records.alarms.list(yardId, { standingOnly: true }),
  ]);
  const worst = worstBySubject(alarms.filter(isStanding));
  const cores = new Map(statuses.map(({ pileId, coreCelsius }) => [pileId, coreCelsius]));
  const ofPiles = piles
    .filter(({ endedMs }) => endedMs === null)
    .map(({ id, name }) => ({
      name,
      coreCelsius: cores.get(id) ?? null,
      alarm: alarmLine(worst.get(`pile ${id}`)),
    }));
  const others = [...worst.values()].filter(({ subject }) => subject.kind !== 'pile');
  const ofOthers = others.map(async (alarm) => ({
    name: (await aboutWhat(records, alarm)).name,
    coreCelsius: null,
    alarm: alarmLine(alarm),
  }));
  return [...ofPiles, ...(await Promise.all(ofOthers))];
}

function worstBySubject(alarms: readonly Alarm[]): Map<string, Alarm> {
  const rank = ({ priority }: Alarm) => priorities.indexOf(priority);
  const worst = new Map<string, Alarm>();
  for (const alarm of alarms.toSorted((a, b) => rank(a) - rank(b))) {
    const subject = `${alarm.subject.kind} ${alarm.subject.id}`;
    if (!worst.has(subject)) worst.set(subject, alarm);
  }
  return worst;
}

function alarmLine(alarm: Alarm | undefined): StatusLine['alarm'] {
  if (alarm === undefined) return null;
  const { code, condition, priority } = alarm;
  return { condition, code, priority };
}
