import { composeMilestoneText } from '../../shared/messages/composeMilestone.ts';
import { planFor, roundsFor } from '../../shared/messages/plan.ts';
import {
  type MilestoneId,
  type MilestoneWords,
  milestonesIn,
  milestonesOf,
  noteOfMilestone,
  wordsOfMilestone,
} from '../../shared/rules/milestones.ts';
import type { PileView } from '../../shared/rules/pileView.ts';
import type { JournalEntry } from '../../shared/yard/journal.ts';
import type { NewMessage } from '../records/port.ts';
import type { TextContext } from './texts.ts';

const hourMs = 3_600_000;
/** Nobody must act at once: a text that could not leave in this time is not worth sending. */
const goodForHours = 24;

/** What a pile's milestones want stored, in one transaction. */
export interface MilestoneStep {
  readonly journal: readonly Omit<JournalEntry, 'id'>[];
  readonly messages: readonly NewMessage[];
}

/**
 * Which milestones of one pile have been told. The truth is in its journal, as notes the system wrote: people see them
 * there, and a restart finds them there. Looked at once an hour of the pile's time.
 */
export class MilestoneDesk {
  readonly #told: Set<MilestoneId>;
  #hour = -1;

  constructor(journal: readonly JournalEntry[]) {
    this.#told = milestonesIn(journal);
  }

  /** The journal was read again. */
  learn(journal: readonly JournalEntry[]): void {
    for (const id of milestonesIn(journal)) this.#told.add(id);
  }

  /** Newly reached ones, each told once: a note in the journal and a text of low priority to those who want such. */
  look(view: PileView, context: TextContext): MilestoneStep {
    const hour = Math.floor(view.nowMs / hourMs);
    if (hour === this.#hour || context.holdTexts) return { journal: [], messages: [] };
    this.#hour = hour;
    const reached = milestonesOf(view).filter((id) => !this.#told.has(id));
    for (const id of reached) this.#told.add(id);
    return {
      journal: reached.map((id) => noteFor(view, wordsOfMilestone(id, view), context.nowMs)),
      messages: reached.flatMap((id) => messagesFor(view, id, context)),
    };
  }
}

function noteFor(view: PileView, words: MilestoneWords, nowMs: number): Omit<JournalEntry, 'id'> {
  const note = noteOfMilestone(words);
  const { nowMs: timeMs } = view;
  return { pileId: view.pile.id, timeMs, kind: 'note', value: null, note, by: null, recordedAtMs: nowMs };
}

function messagesFor(view: PileView, id: MilestoneId, context: TextContext): NewMessage[] {
  const { people, ways, duty: plan, yard, settings, nowMs } = context;
  const textChannel = settings.smsChannel;
  const telling = { people, ways, plan, timeZone: yard.timeZone, nowMs, textChannel };
  const about = { id: `milestone.${view.pile.id}.${id}`, occurrence: 1, priority: 'low' } as const;
  const said = { ...view.pile, ...wordsOfMilestone(id, view) };
  const [firstRound = []] = roundsFor('low', telling);
  return firstRound
    .flatMap((personId) => planFor(about, personId, 'reached', telling))
    .map(({ person, channel, address, idempotencyKey }) => ({
      ...{ yardId: yard.id, pileId: view.pile.id, alarmId: null, occurrence: null, answerLink: null },
      ...{ idempotencyKey, personId: person.id, channel, address, priority: 'low', kind: 'milestone' },
      text: composeMilestoneText(said, context.wordings(person.language)),
      ...{ createdMs: nowMs, notBeforeMs: nowMs, expiresMs: nowMs + goodForHours * hourMs },
    }));
}
