import { afterJournal, journalMoments } from '../compost/stages/detectStages.ts';
import { type StageLevels, stageLevelsFor } from '../compost/stages/stageLevels.ts';
import { freshMemory, nextMemory, type StageMemory } from '../compost/stages/stageMachine.ts';
import type { JournalEntry } from '../yard/journal.ts';
import type { Pile } from '../yard/yard.ts';
import { workDays } from './materialLeft.ts';
import { driestWanted } from './moistureLimits.ts';
import { freshVigour, learntEnough, stepVigour, type Vigour, vigourOf } from './vigour.ts';
import {
  addWater,
  balanceOf,
  freshBalance,
  lostKelvin,
  type MethodBalance,
  measuredBalance,
  moistureOfBalance,
  type PileBalance,
  stepBalance,
  usualKelvin,
} from './waterBalance.ts';

/** What is carried from hour to hour of a pile's life. */
export interface PileMemory {
  readonly stage: StageMemory;
  readonly balance: PileBalance;
  /** Days of work at the best temperature and moisture since it was built or fed. */
  readonly workDays: number;
  readonly vigour: Vigour;
  /** Last air known, Celsius; null when there has been none. */
  readonly airCelsius: number | null;
  /** The journal has been read up to here. */
  readonly readMs: number;
  /** End of the last hour in which the core was known. */
  readonly coreMs: number;
}

/** One clock hour of which something is known; NaN for what is not. */
export interface PileHour {
  readonly startMs: number;
  /** The one line for the core. */
  readonly coreCelsius: number;
  readonly airCelsius: number;
  readonly moistureFraction: number;
}

/** What the records say that bears on how hours are read; made once for each change of the records. */
export interface HourContext {
  readonly levels: StageLevels;
  readonly method: MethodBalance;
  /** Moisture a pile of this method is believed to have once somebody has watered it. */
  readonly wateredFraction: number;
  readonly journal: readonly JournalEntry[];
  readonly moments: ReturnType<typeof journalMoments>;
  /** The longest a core reading speaks for, hours: more than one where a pile is read by hand. */
  readonly coreHours: number;
}

export function hourContext(
  { method, build }: Pick<Pile, 'method' | 'build'>,
  journal: readonly JournalEntry[],
  coreHours: number,
): HourContext {
  const levels = stageLevelsFor(method);
  return {
    levels,
    method: balanceOf(method, build),
    wateredFraction: driestWanted[method] + 0.04,
    journal,
    moments: journalMoments(journal, levels),
    coreHours: Math.max(1, coreHours),
  };
}

/** The memory of a pile just built. */
export function freshPileMemory({
  method,
  build,
  startedMs,
}: Pick<Pile, 'method' | 'build' | 'startedMs'>): PileMemory {
  return {
    stage: freshMemory(stageLevelsFor(method).firstStage),
    balance: freshBalance(balanceOf(method, build)),
    workDays: 0,
    vigour: freshVigour,
    airCelsius: null,
    readMs: startedMs,
    coreMs: startedMs,
  };
}

const hourMs = 3_600_000;
/** Air where a yard has no sensor, Celsius (our choice, no source). */
const assumedAirCelsius = 15;
/** Heat lost in a silent stretch is reckoned for this long; a longer one is not guessed at. */
const longestReckonedHours = 24;

/** Takes the next hour, in time order. */
export function nextPileMemory(memory: PileMemory, hour: PileHour, context: HourContext): PileMemory {
  const endMs = hour.startMs + hourMs;
  const written = readJournal(memory, endMs, context);
  const airCelsius = Number.isNaN(hour.airCelsius) ? memory.airCelsius : hour.airCelsius;
  const warmed = Number.isNaN(hour.coreCelsius)
    ? written
    : afterCore({ ...written, airCelsius }, hour, context);
  return { ...warmed, balance: measured(warmed.balance, hour), airCelsius };
}

function afterCore(memory: PileMemory, hour: PileHour, context: HourContext): PileMemory {
  const endMs = hour.startMs + hourMs;
  const celsius = hour.coreCelsius;
  const since = Math.max(1, (endMs - memory.coreMs) / hourMs);
  const hours = Math.min(since, longestReckonedHours);
  const step = { celsius, hours: Math.min(since, context.coreHours), ...context.moments(hour.startMs) };
  const worked = workDays(celsius, moistureOfBalance(memory.balance).middle, hours);
  const around = { coreCelsius: celsius, airCelsius: memory.airCelsius ?? assumedAirCelsius, hours };
  const work = { workedBefore: memory.workDays, worked };
  const vigour = stepVigour(memory.vigour, celsius, {
    lostKelvin: lostKelvin(context.method, around) / hours,
    usualKelvin: usualKelvin(context.method, work) / hours,
  });
  const told = { ...around, ...work, vigour: vigourOf(vigour) };
  const balance = stepBalance(memory.balance, context.method, told);
  const stage = nextMemory(memory.stage, step, context.levels);
  return { ...memory, stage, balance, vigour, workDays: memory.workDays + worked, coreMs: endMs };
}

function measured(balance: PileBalance, hour: PileHour): PileBalance {
  return Number.isNaN(hour.moistureFraction) ? balance : measuredBalance(balance, hour.moistureFraction);
}

/** What people did up to the end of the hour: fresh material starts a pile over, water stays in it, a word ends it. */
function readJournal(memory: PileMemory, endMs: number, context: HourContext): PileMemory {
  const { journal, levels, method } = context;
  let { stage, balance, vigour, workDays: worked } = memory;
  for (let index = firstAfter(journal, memory.readMs); index < journal.length; index += 1) {
    const { timeMs, kind, value } = journal[index]!;
    if (timeMs > endMs) break;
    stage = afterJournal(stage, kind, levels);
    if (kind === 'added') {
      balance = freshBalance(method);
      worked = 0;
      vigour = freshVigour;
    }
    if (kind === 'turned' || kind === 'opened' || kind === 'moved') vigour = learntEnough(vigour);
    if (kind === 'watered') balance = addWater(balance, method, value, context.wateredFraction);
  }
  return { ...memory, stage, balance, vigour, workDays: worked, readMs: endMs };
}

/** Index of the first entry later than a time. */
function firstAfter(journal: readonly JournalEntry[], timeMs: number): number {
  let [low, high] = [0, journal.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (journal[middle]!.timeMs <= timeMs) low = middle + 1;
    else high = middle;
  }
  return low;
}
