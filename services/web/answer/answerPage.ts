import type { Alarm, Evidence } from '../../../shared/alarms/alarm.ts';
import { catalogues, type Language, languages, phrase } from '../../../shared/messages/words/languages.ts';
import { fill, type MessageWords } from '../../../shared/messages/words/messageWords.ts';
import type { Yard } from '../../../shared/yard/yard.ts';
import type { House } from '../house.ts';
import { conditionName, peopleNames } from '../views/names.ts';
import { escapeHtml } from './escapeHtml.ts';
import type { Answer } from './findAnswer.ts';
import { type AnswerPageWords, answerPageWords } from './pageWords.ts';

export interface PlainPage {
  readonly status: number;
  readonly language: Language;
  readonly title: string;
  readonly body: string;
}

/** What the page behind an answer link says, in the language of the person it was sent to. */
export async function answerPage(house: House, answer: Answer): Promise<PlainPage> {
  if (answer.kind === 'unknown') return deadPage(404, languages[0], 'unknown');
  if (answer.kind === 'expired') return deadPage(410, answer.person.language, 'expired');
  const { alarm, yard, where, person } = answer;
  const page = answerPageWords[person.language];
  const catalogue = catalogues[person.language];
  const say = (sentence: string) => escapeHtml(phrase(catalogue, sentence));
  const words = await house.wordsFor(alarm);
  const what = phrase(catalogue, words?.what ?? conditionName(house, alarm.condition));
  const firstAction = answer.firstAction ?? words?.firstAction ?? '';
  const body = [
    `<h1>${escapeHtml(where)}: ${escapeHtml(what)}</h1>`,
    `<p>${escapeHtml(await standingWords(house, answer.kind, alarm, yard, page))}</p>`,
    evidenceList(alarm.evidence, yard, catalogue),
    firstAction === '' ? '' : `<p class="first"><strong>${page.first}</strong> ${say(firstAction)}</p>`,
    ...(words?.cautions ?? []).map((caution) => `<p><strong>${page.caution}</strong> ${say(caution)}</p>`),
    answer.kind === 'open' ? `<form method="post"><button type="submit">${page.button}</button></form>` : '',
    `<footer>${escapeHtml(yard.name)}</footer>`,
  ];
  return {
    ...{ status: 200, language: person.language, title: `${where}: ${what}` },
    body: body.filter((part) => part !== '').join('\n'),
  };
}

function deadPage(status: number, language: Language, reason: 'unknown' | 'expired'): PlainPage {
  const { [reason]: said, nothingDone } = answerPageWords[language];
  const body = `<h1>${said.title}</h1>\n<p>${said.why} ${nothingDone}</p>`;
  return { status, language, title: said.title, body };
}

async function standingWords(
  house: House,
  kind: string,
  alarm: Alarm,
  yard: Yard,
  page: AnswerPageWords,
): Promise<string> {
  const { activeSinceMs } = alarm;
  switch (kind) {
    case 'open':
      if (activeSinceMs === null) return page.open;
      return fill(page.openSince, { time: localTime(activeSinceMs, yard, page) });
    case 'superseded':
      return page.superseded;
    case 'hidden':
      return fill(page.hidden, { reason: alarm.hiddenReason ?? alarm.state });
    default:
      return doneWords(house, alarm, yard, page);
  }
}

async function doneWords(house: House, alarm: Alarm, yard: Yard, page: AnswerPageWords): Promise<string> {
  const still = alarm.state === 'normal' ? page.backToNormal : page.stillOn;
  if (alarm.acknowledgedMs === null) return still;
  const name = (await peopleNames(house, yard.id))(alarm.acknowledgedBy) ?? page.somebody;
  return `${fill(page.seenBy, { name, time: localTime(alarm.acknowledgedMs, yard, page) })} ${still}`;
}

function evidenceList(evidence: readonly Evidence[], yard: Yard, words: MessageWords): string {
  const inWords = evidence.map((one) => evidenceWords({ ...one, label: phrase(words, one.label) }, yard));
  const items = inWords.map((one) => `<li>${escapeHtml(one)}</li>`);
  return items.length === 0 ? '' : `<ul>${items.join('')}</ul>`;
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

function localTime(timeMs: number, yard: Yard, { locale }: AnswerPageWords): string {
  return new Intl.DateTimeFormat(locale, {
    timeZone: yard.timeZone,
    weekday: 'short',
    day: 'numeric',
    month: 'short',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
  }).format(timeMs);
}
