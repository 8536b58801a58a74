import type { Stage } from '../../yard/yard.ts';
import type { StageLevels } from './stageLevels.ts';

/** What the stage machine remembers from step to step. Hours count only steps in which the core was known. */
export interface StageMemory {
  readonly stage: Stage;
  readonly firstCelsius: number | null;
  readonly peakCelsius: number;
  readonly hoursHot: number;
  readonly hoursHeating: number;
  readonly hoursFallen: number;
  /** Hours under the hot level since it was last reached. */
  readonly hoursSinceHot: number;
  /** True once a turn or watering since then had its time to bring the heat back. */
  readonly testedSinceHot: boolean;
}

/** The memory of a pile of which nothing has been read yet. */
export function freshMemory(stage: Stage): StageMemory {
  const counters = { hoursHot: 0, hoursHeating: 0, hoursFallen: 0, hoursSinceHot: 0 };
  return {
    stage,
    firstCelsius: null,
    peakCelsius: Number.NEGATIVE_INFINITY,
    ...counters,
    testedSinceHot: false,
  };
}

export interface StageStep {
  readonly celsius: number;
  readonly hours: number;
  /** True for some hours after people opened, turned or watered it: a fall then says nothing. */
  readonly disturbed: boolean;
  /** Hours since the last turn or watering that has had its time to bring the heat back; null when there was none. */
  readonly hoursSinceTested: number | null;
}

/** One step of known core temperature. */
export function nextMemory(memory: StageMemory, step: StageStep, levels: StageLevels): StageMemory {
  const counted = count(memory, step, levels);
  const stage = nextStage(counted, levels);
  // A new rise is measured against the new low, not against the peak of an earlier one.
  return stage === memory.stage ? counted : { ...counted, stage, hoursFallen: 0, hoursHeating: 0 };
}

function count(memory: StageMemory, step: StageStep, levels: StageLevels): StageMemory {
  const { celsius, hours, disturbed } = step;
  const firstCelsius = memory.firstCelsius ?? celsius;
  const isHot = celsius >= levels.hotFromCelsius;
  const rises = celsius >= Math.min(levels.heatingFromCelsius, firstCelsius + levels.heatingRiseCelsius);
  const peakCelsius = Math.max(memory.peakCelsius, celsius);
  const hoursSinceHot = isHot ? 0 : memory.hoursSinceHot + hours;
  const tested = step.hoursSinceTested !== null && step.hoursSinceTested <= hoursSinceHot;
  const fallen = hasFallen(memory.stage, celsius, peakCelsius, levels);
  return {
    stage: memory.stage,
    firstCelsius,
    peakCelsius,
    hoursHot: isHot ? memory.hoursHot + hours : 0,
    hoursHeating: rises ? memory.hoursHeating + hours : 0,
    // A disturbed pile's fall is neither counted nor forgotten: some piles are watered every day.
    hoursFallen: disturbed ? memory.hoursFallen : fallen ? memory.hoursFallen + hours : 0,
    hoursSinceHot,
    testedSinceHot: !isHot && (memory.testedSinceHot || tested),
  };
}

function hasFallen(stage: Stage, celsius: number, peakCelsius: number, levels: StageLevels): boolean {
  if (stage === 'hot') return celsius < levels.hotUntilCelsius;
  return celsius <= peakCelsius - levels.fallFromPeakCelsius;
}

function nextStage(memory: StageMemory, levels: StageLevels): Stage {
  if (memory.stage === 'finished') return 'finished';
  if (memory.hoursHot >= levels.riseHours) return 'hot';
  switch (memory.stage) {
    case 'lag':
      return memory.hoursHeating >= levels.riseHours ? 'heating' : 'lag';
    case 'heating':
    case 'hot':
      return memory.hoursFallen >= levels.fallHours ? 'cooling' : memory.stage;
    case 'cooling':
      return isCuring(memory, levels) ? 'curing' : 'cooling';
    default:
      return memory.stage;
  }
}

function isCuring(memory: StageMemory, levels: StageLevels): boolean {
  const days = memory.testedSinceHot ? levels.curingDays : levels.curingDaysUntested;
  return memory.hoursSinceHot >= days * 24;
}
