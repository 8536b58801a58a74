import { alarmReport } from '../../../shared/alarms/report.ts';
import { composeDigestText } from '../../../shared/messages/digestText.ts';
import { allWellOf, digestOf, dueSince, monthReportOf } from '../../../shared/messages/dueSince.ts';
import { fitOneSegment } from '../../../shared/messages/fitOneSegment.ts';
import { dayAfter, instantOf, localMoment } from '../../../shared/messages/localInstant.ts';
import { roundsFor } from '../../../shared/messages/plan.ts';
import { fill, type MessageWords } from '../../../shared/messages/words/messageWords.ts';
import { formatTemperature } from '../../../shared/units/temperature.ts';
import type { NewMessage, Records } from '../../records/port.ts';
import { statusLines } from '../answering/yardStatus.ts';
import { aboutWhat } from '../gate/nameAlarm.ts';
import { notesTo, ownersOf, type YardDuty } from './reach.ts';
import { readReportInput } from './readReportInput.ts';

const weekMs = 7 * 86_400_000;

/** The weekly text to owners, if one was due since the last run. */
export async function weeklyDigest(
  records: Records,
  duty: YardDuty,
  lastRunMs: number,
  publicUrl: string | null,
): Promise<NewMessage[]> {
  const { nowMs, plan, timeZone } = duty.telling;
  const regular = digestOf(plan);
  const dueMs = regular === null ? null : dueSince(regular, timeZone, lastRunMs, nowMs);
  if (dueMs === null) return [];
  const span = { fromMs: dueMs - weekMs, toMs: dueMs, nowMs };
  const report = alarmReport(await readReportInput(records, duty.yard, span));
  const [worst] = report.worst;
  const worstName = worst === undefined ? '' : (await aboutWhat(records, worst)).name;
  const text = (words: MessageWords) =>
    composeDigestText(
      {
        ...{ yardName: duty.yard.name, texts: report.texts, activations: report.activations },
        ...{ texted: report.texted, acted: report.acted, stale: report.staleNow.length },
        worst:
          worst === undefined
            ? null
            : { name: worstName, what: words.conditions[worst.condition], count: worst.texts },
        link: publicUrl === null ? null : `${publicUrl}/`,
      },
      words,
    );
  const key = `digest:${duty.yard.id}:${dueMs}`;
  return notesTo(ownersOf(duty), duty, { kind: 'digest', key, text, priority: 'low', goodForHours: 24 });
}

/** The alarm report of the month before, to owners on the first, if one was due since the last run. */
export async function monthReport(
  records: Records,
  duty: YardDuty,
  lastRunMs: number,
  publicUrl: string | null,
): Promise<NewMessage[]> {
  const { nowMs, plan, timeZone } = duty.telling;
  const regular = monthReportOf(plan);
  const dueMs = regular === null ? null : dueSince(regular, timeZone, lastRunMs, nowMs);
  if (dueMs === null) return [];
  const { day } = localMoment(timeZone, dueMs);
  const before = dayAfter(day, -1);
  const month = before.slice(0, 7);
  const midnight = (date: string) => instantOf(timeZone, date, 0);
  const span = { fromMs: midnight(`${before.slice(0, 8)}01`), toMs: midnight(day), nowMs };
  const report = alarmReport(await readReportInput(records, duty.yard, span));
  const known = report.figures.filter(({ isMet }) => isMet !== null);
  const text = ({ digest: words }: MessageWords) => {
    const { texts, activations, acted, texted } = report;
    const values = {
      yard: duty.yard.name.trim().slice(0, 24),
      month,
      texts,
      activations,
    };
    const aims = { met: known.filter(({ isMet }) => isMet === true).length, aims: known.length };
    return fitOneSegment([
      { text: fill(words.month, values), priority: 1 },
      { text: texted === 0 ? '' : fill(words.acted, { acted, texted }), priority: 2 },
      { text: known.length === 0 ? '' : fill(words.aimsMet, aims), priority: 3 },
      { ...reportLink(publicUrl, month, words), priority: 4 },
    ]).text;
  };
  const key = `month:${duty.yard.id}:${dueMs}`;
  return notesTo(ownersOf(duty), duty, { kind: 'digest', key, text, priority: 'low', goodForHours: 48 });
}

/** To the very page of the report, or only to the yard where there is no room for it. */
function reportLink(publicUrl: string | null, month: string, { link }: MessageWords['digest']) {
  if (publicUrl === null) return { text: '' };
  const shorter = [fill(link, { link: `${publicUrl}/` })];
  return { text: fill(link, { link: `${publicUrl}/#/manage/report/${month}` }), shorter };
}

/** The daily text to whoever is on duty, if one was due since the last run: that all is well, or what is not. */
export async function dailyAllWell(
  records: Records,
  duty: YardDuty,
  lastRunMs: number,
): Promise<NewMessage[]> {
  const { nowMs, plan, timeZone, people } = duty.telling;
  const regular = allWellOf(plan);
  const dueMs = regular === null ? null : dueSince(regular, timeZone, lastRunMs, nowMs);
  if (dueMs === null) return [];
  const first = new Set(roundsFor('highest', duty.telling)[0] ?? []);
  const told = people.filter(({ id }) => first.has(id));
  const text = await allWellText(records, duty);
  const key = `all-well:${duty.yard.id}:${dueMs}`;
  return notesTo(told, duty, { kind: 'all-well', key, text, priority: 'low', goodForHours: 6 });
}

async function allWellText(records: Records, { yard }: YardDuty): Promise<(words: MessageWords) => string> {
  const lines = await statusLines(records, yard.id);
  const values = { yard: yard.name.trim().slice(0, 24) };
  const standing = lines.filter(({ alarm }) => alarm !== null);
  const [first] = standing;
  const cores = lines.flatMap(({ coreCelsius }) => coreCelsius ?? []);
  const format = { unit: yard.temperatureUnit, decimals: 0 } as const;
  return ({ watch: words, status, conditions }) => {
    if (first?.alarm != null) {
      const { condition, code } = first.alarm;
      const more = {
        count: standing.length,
        name: first.name.slice(0, 18),
        what: conditions[condition],
        code,
      };
      return fitOneSegment([{ text: fill(words.notWell, { ...values, ...more }), priority: 1 }]).text;
    }
    const hottest = cores.length === 0 ? status.noReading : formatTemperature(Math.max(...cores), format);
    const text = fill(words.allWell, { ...values, piles: lines.length, hottest });
    return fitOneSegment([{ text, priority: 1 }]).text;
  };
}
