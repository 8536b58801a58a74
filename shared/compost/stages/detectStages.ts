import type { JournalEntry, JournalKind } from '../../yard/journal.ts';
import type { PileMethod } from '../../yard/method.ts';
import type { Stage } from '../../yard/yard.ts';
import { type CoreChannel, coreCourse } from './coreCourse.ts';
import { type StageLevels, stageLevelsFor } from './stageLevels.ts';
import { freshMemory, nextMemory, type StageMemory } from './stageMachine.ts';

export interface StageInput {
  readonly method: PileMethod;
  readonly startedMs: number;
  readonly nowMs: number;
  readonly core: readonly CoreChannel[];
  readonly journal: readonly Pick<JournalEntry, 'timeMs' | 'kind'>[];
}

/** A stretch of one stage; `stage` null where no core channel spoke for longer than a few hours. `toMs` is exclusive. */
export interface StageSpan {
  readonly stage: Stage | null;
  readonly fromMs: number;
  readonly toMs: number;
}

const stepMs = 3_600_000;
/** Silence up to this keeps the stage it was in (ours). */
const toleratedSilenceSteps = 6;
const disturbing: readonly JournalKind[] = ['turned', 'opened', 'probe-pulled'];
const testing: readonly JournalKind[] = ['turned', 'watered'];

/**
 * The stages a pile went through, from its core and its journal, hour by hour from its start until now. `finished`
 * comes only from the journal: a cool pile may be dry or airless, so a person decides (see `judgeFinished`).
 */
export function detectStages(input: StageInput, levels = stageLevelsFor(input.method)): StageSpan[] {
  const course = coreCourse(input.core, { fromMs: input.startedMs, toMs: input.nowMs, stepMs });
  const journal = [...input.journal].sort((one, other) => one.timeMs - other.timeMs);
  const moments = journalMoments(journal, levels);
  const spans: StageSpan[] = [];
  let memory = freshMemory(levels.firstStage);
  let silentSteps = 0;
  let nextEntry = 0;
  for (const { timeMs, celsius } of course) {
    for (; nextEntry < journal.length && journal[nextEntry]!.timeMs <= timeMs; nextEntry++) {
      memory = afterJournal(memory, journal[nextEntry]!.kind, levels);
    }
    silentSteps = celsius === null ? silentSteps + 1 : 0;
    if (celsius !== null) {
      memory = nextMemory(memory, { celsius, hours: 1, ...moments(timeMs) }, levels);
    }
    const known = silentSteps <= toleratedSilenceSteps && memory.firstCelsius !== null;
    const stage = known || memory.stage === 'finished' ? memory.stage : null;
    addStep(spans, stage, timeMs, Math.min(timeMs + stepMs, input.nowMs));
  }
  return spans;
}

/** Fresh material starts a pile that is not hot over again; a person's word ends it. */
export function afterJournal(memory: StageMemory, kind: JournalKind, levels: StageLevels): StageMemory {
  if (kind === 'finished') return { ...memory, stage: 'finished' };
  const startsOver = kind === 'added' && memory.stage !== 'hot' && levels.firstStage === 'lag';
  return startsOver ? freshMemory('lag') : memory;
}

/** For any time: whether a fall is still expected after something people did, and how long ago the pile was last tested. */
export function journalMoments(journal: StageInput['journal'], levels: StageLevels) {
  const timesOf = (kinds: readonly JournalKind[]) =>
    journal.filter((entry) => kinds.includes(entry.kind)).map((entry) => entry.timeMs);
  const [disturbedMs, wateredMs, testedMs] = [timesOf(disturbing), timesOf(['watered']), timesOf(testing)];
  return (timeMs: number) => {
    const hoursSince = (times: readonly number[], leastHours = 0) => {
      const last = times.findLast((one) => timeMs - one >= leastHours * stepMs);
      return last === undefined ? null : (timeMs - last) / stepMs;
    };
    const disturbed = (hoursSince(disturbedMs) ?? Number.POSITIVE_INFINITY) < levels.disturbedHours;
    const watered = (hoursSince(wateredMs) ?? Number.POSITIVE_INFINITY) < levels.wateredHours;
    return { disturbed: disturbed || watered, hoursSinceTested: hoursSince(testedMs, levels.disturbedHours) };
  };
}

function addStep(spans: StageSpan[], stage: Stage | null, fromMs: number, toMs: number): void {
  const last = spans.at(-1);
  if (last !== undefined && last.stage === stage) spans[spans.length - 1] = { ...last, toMs };
  else spans.push({ stage, fromMs, toMs });
}

/** The stage a pile is in now, or null when its core has been silent too long to know. */
export function stageNow(spans: readonly StageSpan[]): Stage | null {
  return spans.at(-1)?.stage ?? null;
}
