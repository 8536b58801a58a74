import { type ConditionId, conditionIds } from '../../../shared/alarms/alarm.ts';
import { allConditions } from '../../../shared/rules/allConditions.ts';
import { type ConditionScore, monthsOf, type ScoredStory, scoreCondition, textsPerMonth } from './score.ts';
import { notTold, truths } from './truth.ts';

const share = (part: number, whole: number): string =>
  whole === 0 ? '-' : `${Math.round((100 * part) / whole)} %`;

function median(values: readonly number[]): string {
  if (values.length === 0) return '-';
  const sorted = [...values].sort((a, b) => a - b);
  return `${sorted[sorted.length >> 1]!.toFixed(1)} h`;
}

const widths = [24, 7, 9, 7, 7, 7, 10, 10, 11] as const;
const line = (cells: readonly (string | number)[]): string =>
  cells
    .map((cell, index) =>
      index === 0 ? String(cell).padEnd(widths[0]) : String(cell).padStart(widths[index]!),
    )
    .join(' ');

/** The scores of every condition, as a table for people. */
export function conditionTable(stories: readonly ScoredStory[]): string {
  const judged = new Set<ConditionId>(allConditions.map(({ id }) => id));
  const rows = conditionIds.map((condition) => {
    if (notTold[condition] !== undefined) return `${condition.padEnd(29)} not told: ${notTold[condition]}`;
    if (!judged.has(condition)) return `${condition.padEnd(29)} no such condition is judged yet`;
    return conditionLine(scoreCondition(condition, stories), stories);
  });
  const head = [
    'condition',
    'asked',
    'episodes',
    'recall',
    'alarms',
    'right',
    'arguable',
    'precision',
    'warning',
  ];
  return [line([...head, 'texts/mo']), ...rows].join('\n');
}

function conditionLine(score: ConditionScore, stories: readonly ScoredStory[]): string {
  const { condition, asked, episodes, found, alarms, right, arguable, warningHours } = score;
  const texts = stories.reduce(
    (sum, { judged }) => sum + judged.texts.filter((text) => text.condition === condition).length,
    0,
  );
  const cells = [condition, asked, episodes, share(found, episodes), alarms, right, arguable];
  const rates = [share(right, alarms - arguable), median(warningHours)];
  return line([...cells, ...rates, (texts / monthsOf(stories)).toFixed(2)]);
}

/** How much people hear: of healthy piles, of troubled ones, by method. */
export function textTable(stories: readonly ScoredStory[]): string {
  const groups: [string, readonly ScoredStory[]][] = [
    ['healthy stories', stories.filter(({ healthy }) => healthy)],
    ['troubled stories', stories.filter(({ healthy }) => !healthy)],
    ...[
      ...Map.groupBy(
        stories.filter(({ healthy }) => healthy),
        ({ spec }) => spec.method,
      ),
    ].map(([method, own]): [string, readonly ScoredStory[]] => [`  healthy ${method}`, own]),
  ];
  return groups
    .map(
      ([name, own]) =>
        `${name.padEnd(32)} ${String(own.length).padStart(4)} stories ${monthsOf(own).toFixed(1).padStart(7)} pile-months ${textsPerMonth(own).toFixed(2).padStart(6)} texts a pile-month`,
    )
    .join('\n');
}

/** Troubled piles about which nobody got any text at all: worse than a wrong name for the trouble. */
export function silentTroubles(stories: readonly ScoredStory[]): string {
  const troubled = stories.filter(({ healthy }) => !healthy);
  const silent = troubled.filter(({ judged }) => judged.texts.length === 0);
  const names = silent.map(
    ({ spec }) => `${spec.id} ${spec.kind}${spec.faults.map(({ kind }) => ` (${kind})`).join('')}`,
  );
  return `troubled stories nobody was texted about: ${silent.length} of ${troubled.length}${names.length === 0 ? '' : `\n  ${names.join('; ')}`}`;
}

/** Stories behind what went wrong, for whoever looks into a condition on the tuning seeds. */
export function detailTable(stories: readonly ScoredStory[]): string {
  return Object.keys(truths)
    .map((id) => scoreCondition(id as ConditionId, stories))
    .filter(({ missedIn, wrongIn }) => missedIn.length + wrongIn.length > 0)
    .map(
      ({ condition, missedIn, wrongIn }) =>
        `${condition}\n  missed: ${missedIn.join('; ') || '-'}\n  wrong:  ${wrongIn.join('; ') || '-'}`,
    )
    .join('\n');
}
