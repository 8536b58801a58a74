import type { CauseId } from '../../../shared/diagnosis/causes.ts';
import { diagnose } from '../../../shared/diagnosis/diagnose.ts';
import type { DiagnosisFacts } from '../../../shared/diagnosis/facts/facts.ts';
import { factsFromWindow } from '../../../shared/diagnosis/facts/fromWindow.ts';
import { observationsFrom, situationFrom } from '../../../shared/diagnosis/facts/observationsFrom.ts';
import { type Trouble, troubleOf } from '../../../shared/diagnosis/trouble.ts';
import { createPileSubject } from '../../../shared/rules/pileSubject.ts';
import { atInstant, type PileWindow } from '../../../shared/rules/pileWindow.ts';
import { mergePast } from '../../../shared/rules/replayMerge.ts';
import type { Past } from '../../../shared/rules/replayPast.ts';
import type { JournalEntry } from '../../../shared/yard/journal.ts';
import type { ScoredStory } from './score.ts';
import { moistureOfRow, squeezeScore } from './squeeze.ts';
import type { InjectedCause } from './storySpec.ts';

/** What a story did to its pile, in the causes a diagnosis may name: any of them is right. And the troubles it makes. */
const injected: Readonly<
  Record<InjectedCause, { readonly causes: readonly CauseId[]; readonly troubles: readonly Trouble[] }>
> = {
  'too-dry': {
    causes: ['too-dry', 'built-dry', 'under-watered', 'own-heat'],
    troubles: ['never-heated', 'stalled', 'fell-short', 'drying-out'],
  },
  'airless-wet': {
    causes: ['airless', 'packed', 'wet-mix', 'overwatered', 'rain', 'poor-drainage'],
    troubles: ['never-heated', 'stalled', 'fell-short', 'too-wet'],
  },
  'cold-loss': { causes: ['cold-loss'], troubles: ['never-heated', 'stalled', 'fell-short'] },
  'little-food': { causes: ['spent', 'nitrogen-short'], troubles: ['never-heated', 'fell-short'] },
  finished: { causes: ['spent'], troubles: ['stalled'] },
  'too-rich': { causes: ['rich-mix', 'too-big'], troubles: ['too-hot'] },
  'dry-and-hot': {
    causes: ['too-dry-to-cool', 'rich-mix', 'too-big', 'smouldering'],
    troubles: ['too-hot'],
  },
};

/** One trouble put to the diagnosis, and how high the true cause came. */
export interface DiagnosedTrouble {
  readonly story: string;
  readonly trouble: Trouble;
  readonly cause: InjectedCause;
  /** 1 = first. */
  readonly rank: number;
  /** The same once somebody has squeezed a handful. */
  readonly rankAfterSqueeze: number;
  readonly named: CauseId;
}

/** Asks for the cause at the first alarm of each trouble whose cause the story put in itself. */
export function diagnoseStory(story: ScoredStory): DiagnosedTrouble[] {
  const { spec, judged } = story;
  if (spec.cause === null) return [];
  const cause = spec.cause;
  const { causes, troubles } = injected[cause];
  const firsts = new Map<Trouble, number>();
  for (const { condition, startMs, shown } of judged.alarms) {
    const trouble = troubleOf(condition);
    if (!shown || trouble === null || !troubles.includes(trouble) || firsts.has(trouble)) continue;
    firsts.set(trouble, startMs);
  }
  return [...firsts].map(([trouble, atMs]) => {
    const facts = factsFromWindow(windowAt(story.told.past, atMs));
    const before = ranked(trouble, facts);
    const after = ranked(trouble, withSqueeze(facts, story));
    const rankIn = (list: readonly CauseId[]) => list.findIndex((one) => causes.includes(one)) + 1;
    return {
      story: `${spec.id} ${spec.kind}`,
      ...{ trouble, cause, named: before[0]! },
      rank: rankIn(before) || Number.POSITIVE_INFINITY,
      rankAfterSqueeze: rankIn(after) || Number.POSITIVE_INFINITY,
    };
  });
}

function ranked(trouble: Trouble, facts: DiagnosisFacts): CauseId[] {
  return diagnose(trouble, observationsFrom(facts), situationFrom(facts)).causes.map(({ cause }) => cause);
}

/** What was known of the pile at an instant, from the readings up to then. */
function windowAt(past: Past, atMs: number): PileWindow {
  const pile = createPileSubject(past.facts, { version: 0, overrides: {} });
  const { judged } = pile.subject;
  const merged = mergePast(past);
  for (let batch = merged.next(); batch.length > 0; batch = merged.next()) {
    for (const [index, sample] of batch.entries()) {
      if (sample.timeMs > atMs) break;
      judged.add(sample);
      if (batch[index + 1]?.timeMs !== sample.timeMs) judged.settle(sample.timeMs);
    }
    if (batch.at(-1)!.timeMs > atMs) break;
  }
  atInstant(pile.window, atMs);
  return pile.window;
}

/** Somebody goes out, squeezes a handful from inside and writes it down: the first thing most texts ask for. */
function withSqueeze(facts: DiagnosisFacts, story: ScoredStory): DiagnosisFacts {
  const score = squeezeScore(moistureOfRow(story.course, facts.nowMs));
  const timeMs = facts.nowMs;
  const entry: JournalEntry = {
    ...{ id: 'squeeze', pileId: 'story', timeMs, kind: 'squeeze-test', value: score },
    ...{ note: '', by: null, recordedAtMs: timeMs },
  };
  return { ...facts, journal: [...facts.journal.filter((one) => one.timeMs <= timeMs), entry] };
}

/** Hit rates by trouble and over all. */
export function diagnosisTable(stories: readonly ScoredStory[]): string {
  const all = stories.flatMap(diagnoseStory);
  const share = (list: readonly DiagnosedTrouble[], test: (one: DiagnosedTrouble) => boolean) =>
    `${Math.round((100 * list.filter(test).length) / Math.max(1, list.length))} %`.padStart(7);
  const row = (name: string, list: readonly DiagnosedTrouble[]) =>
    [
      name.padEnd(32),
      String(list.length).padStart(5),
      share(list, ({ rank }) => rank === 1),
      share(list, ({ rank }) => rank <= 2),
      share(list, ({ rankAfterSqueeze }) => rankAfterSqueeze === 1),
      share(list, ({ rankAfterSqueeze }) => rankAfterSqueeze <= 2),
    ].join(' ');
  const head = `${'diagnosis'.padEnd(32)} asked   top-1   top-2   and after a squeeze test`;
  const groups = [...Map.groupBy(all, ({ trouble, cause }) => `${trouble}: ${cause}`)].sort();
  return [head, ...groups.map(([name, list]) => row(`  ${name}`, list)), row('all', all)].join('\n');
}
