import type { Alarm, Evidence } from '../../../shared/alarms/alarm.ts';
import type { Yard } from '../../../shared/yard/yard.ts';
import type { House } from '../house.ts';
import { conditionName, peopleNames } from '../views/names.ts';
import { escapeHtml } from './escapeHtml.ts';
import type { Answer } from './findAnswer.ts';

export interface PlainPage {
  readonly status: number;
  readonly title: string;
  readonly body: string;
}

/** What the page behind an answer link says. */
export async function answerPage(house: House, answer: Answer): Promise<PlainPage> {
  if (answer.kind === 'unknown')
    return deadPage(404, 'This link is not known', 'It may be mistyped or cut short.');
  if (answer.kind === 'expired')
    return deadPage(410, 'This link is too old', 'It was good for a limited time.');
  const { alarm, yard, where } = answer;
  const words = await house.wordsFor(alarm);
  const what = words?.what ?? conditionName(house, alarm.condition);
  const standing = await standingWords(house, answer.kind, alarm, yard);
  const body = [
    `<h1>${escapeHtml(where)}: ${escapeHtml(what)}</h1>`,
    standing,
    evidenceList(alarm.evidence, yard),
    words === null ? '' : `<p class="first"><strong>First:</strong> ${escapeHtml(words.firstAction)}</p>`,
    words === null ? '' : cautionList(words.cautions),
    answer.kind === 'open' ? button : '',
    `<footer>${escapeHtml(yard.name)}</footer>`,
  ];
  return { status: 200, title: `${where}: ${what}`, body: body.filter((part) => part !== '').join('\n') };
}

const button =
  '<form method="post"><button type="submit">I have seen this and will deal with it</button></form>';

function deadPage(status: number, title: string, why: string): PlainPage {
  const body = `<h1>${title}</h1>
<p>${why} Nothing was acknowledged. Use the link in the newest text, or sign in to the yard.</p>`;
  return { status, title, body };
}

async function standingWords(house: House, kind: string, alarm: Alarm, yard: Yard): Promise<string> {
  const since = alarm.activeSinceMs === null ? '' : ` since ${localTime(alarm.activeSinceMs, yard)}`;
  switch (kind) {
    case 'open':
      return `<p>On${escapeHtml(since)}, not acknowledged yet.</p>`;
    case 'superseded':
      return '<p>This link belongs to an earlier time; the alarm has come again since. Use the link in the newest text.</p>';
    case 'hidden':
      return `<p>Hidden just now: ${escapeHtml(alarm.hiddenReason ?? alarm.state)}. Nothing to acknowledge.</p>`;
    default:
      return `<p>${escapeHtml(await doneWords(house, alarm, yard))}</p>`;
  }
}

async function doneWords(house: House, alarm: Alarm, yard: Yard): Promise<string> {
  const still = alarm.state === 'normal' ? 'It is back to normal.' : 'It is still on.';
  if (alarm.acknowledgedMs === null) return still;
  const by = (await peopleNames(house, yard.id))(alarm.acknowledgedBy) ?? 'somebody';
  return `Acknowledged by ${by} at ${localTime(alarm.acknowledgedMs, yard)}. ${still}`;
}

function evidenceList(evidence: readonly Evidence[], yard: Yard): string {
  const items = evidence.map((one) => `<li>${escapeHtml(evidenceWords(one, yard))}</li>`);
  return items.length === 0 ? '' : `<ul>${items.join('')}</ul>`;
}

function cautionList(cautions: readonly string[]): string {
  return cautions.map((caution) => `<p><strong>Caution:</strong> ${escapeHtml(caution)}</p>`).join('\n');
}

/** "core 72.4 C, limit 71 C": evidence is always Celsius; people read their yard's unit. */
export function evidenceWords({ label, value, unit }: Evidence, yard: Yard): string {
  if (typeof value === 'string') return `${label}: ${value}${unit === '' ? '' : ` ${unit}`}`;
  const [number, shownUnit] = inYardUnit(value, unit, yard.temperatureUnit);
  return `${label}: ${Math.round(number * 10) / 10}${shownUnit === '' ? '' : ` ${shownUnit}`}`;
}

function inYardUnit(value: number, unit: string, yardUnit: Yard['temperatureUnit']): [number, string] {
  if (yardUnit === 'C') return [value, unit];
  if (unit === 'C') return [value * 1.8 + 32, 'F'];
  return unit === 'C/h' ? [value * 1.8, 'F/h'] : [value, unit];
}

function localTime(timeMs: number, yard: Yard): string {
  return new Intl.DateTimeFormat('en-GB', {
    timeZone: yard.timeZone,
    weekday: 'short',
    day: 'numeric',
    month: 'short',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  }).format(timeMs);
}
