import type { JournalEntry } from '../../yard/journal.ts';
import { type Look, looks, type Smell, smells } from '../tables/senses.ts';
import { dayMs } from './samples.ts';

/** What a person saw or smelt counts for this long (judgement). */
const keptDays = 5;

/** What people noted in a fixed form. Null where nobody did. */
export interface Noted {
  readonly smell: Smell | null;
  readonly look: Look | null;
  readonly airPath: 'open' | 'blocked' | null;
  readonly baseWater: 'dry' | 'standing' | null;
}

/**
 * Structured answers from the journal's notes: `smell: sour`, `look: dry and white`, `channels: blocked`,
 * `base: standing`. A note in other words is left to people. The latest answer of the last days counts.
 */
export function notedIn(journal: readonly JournalEntry[], nowMs: number): Noted {
  const notes = journal.filter(({ timeMs }) => timeMs <= nowMs && timeMs > nowMs - keptDays * dayMs);
  return {
    smell: answerIn(notes, 'smell', smells),
    look: answerIn(notes, 'look', looks),
    airPath: answerIn(notes, 'channels', ['open', 'blocked'] as const),
    baseWater: answerIn(notes, 'base', ['dry', 'standing'] as const),
  };
}

function answerIn<Answer extends string>(
  notes: readonly JournalEntry[],
  word: string,
  answers: readonly Answer[],
): Answer | null {
  for (const { note } of notes.toReversed()) {
    const said = note.toLowerCase();
    const answer = answers.find((one) => new RegExp(`\\b${word}: ?${one}\\b`).test(said));
    if (answer !== undefined) return answer;
  }
  return null;
}
