import { applyIntervention, type Intervention } from '../../../shared/compost/pileModel/interventions.ts';
import { prepareSite } from '../../../shared/compost/pileModel/site.ts';
import {
  createPileState,
  moistureOf,
  type PileState,
  total,
  totalDryKg,
} from '../../../shared/compost/pileModel/state.ts';
import { advance } from '../../../shared/compost/pileModel/step.ts';
import { core, edge, shoulder } from '../../../shared/compost/pileModel/zones.ts';
import type { StorySpec } from './storySpec.ts';

export const stepMinutes = 10;
const daySeconds = 86_400;

/** What was really so in the pile, one value every ten minutes from building: no probe and no rule had a hand in it. */
export interface TrueCourse {
  readonly length: number;
  readonly coreCelsius: Float32Array;
  readonly shoulderCelsius: Float32Array;
  readonly edgeCelsius: Float32Array;
  /** The hottest of the three, which need not be the core: a dry shoulder can outrun it. */
  readonly hottestCelsius: Float32Array;
  readonly airCelsius: Float32Array;
  readonly coreMoistureFraction: Float32Array;
  readonly shoulderMoistureFraction: Float32Array;
  readonly coreOxygenFraction: Float32Array;
  /** Degradable matter left, and the quick part of it, as shares of what was put in. */
  readonly foodLeftFraction: Float32Array;
  readonly quickLeftFraction: Float32Array;
  /** What was done to it, as it came about. */
  readonly done: readonly Done[];
}

/** A flood is not written into the journal; what people do is. */
export interface Done {
  readonly action: Intervention;
  readonly logged: boolean;
}

/** Plays a story: the pile model with its weather, what is done by the clock, and the keeper's own looks. */
export function playStory(spec: StorySpec): TrueCourse {
  const site = prepareSite(spec.parameters);
  const state = createPileState(spec.parameters);
  const length = Math.floor((spec.days * 24 * 60) / stepMinutes) + 1;
  const course = emptyCourse(length);
  const done: Done[] = [];
  const waiting = [...spec.interventions].sort((a, b) => a.atSeconds - b.atSeconds);
  const given: Food = { all: foodOf(state), quick: total(state.fastKg) };
  for (let row = 0; row < length; row += 1) {
    const seconds = row * stepMinutes * 60;
    const weather = spec.weather.weatherAt(seconds);
    const byClock = takeDue(waiting, seconds).map((action) => ({ action, logged: action.kind !== 'water' }));
    const byKeeper = lookedAfter(spec, state, row).map((action) => ({ action, logged: true }));
    for (const { action, logged } of [...byClock, ...byKeeper]) {
      const before: Food = { all: foodOf(state), quick: total(state.fastKg) };
      applyIntervention(state, spec.parameters, action, weather);
      given.all += foodOf(state) - before.all;
      given.quick += total(state.fastKg) - before.quick;
      done.push({ action, logged });
    }
    keepRow(course, row, state, weather.airCelsius, given);
    advance(state, site, weather, stepMinutes * 60);
  }
  return { ...course, length, done };
}

type Columns = Omit<TrueCourse, 'length' | 'done'>;

function emptyCourse(length: number): Columns {
  const column = () => new Float32Array(length);
  return {
    coreCelsius: column(),
    shoulderCelsius: column(),
    edgeCelsius: column(),
    hottestCelsius: column(),
    airCelsius: column(),
    coreMoistureFraction: column(),
    shoulderMoistureFraction: column(),
    coreOxygenFraction: column(),
    foodLeftFraction: column(),
    quickLeftFraction: column(),
  };
}

function keepRow(course: Columns, row: number, state: PileState, airCelsius: number, given: Food): void {
  course.coreCelsius[row] = state.celsius[core]!;
  course.shoulderCelsius[row] = state.celsius[shoulder]!;
  course.edgeCelsius[row] = state.celsius[edge]!;
  course.hottestCelsius[row] = Math.max(...state.celsius);
  course.airCelsius[row] = airCelsius;
  course.coreMoistureFraction[row] = moistureOf(state, core);
  course.shoulderMoistureFraction[row] = moistureOf(state, shoulder);
  course.coreOxygenFraction[row] = state.oxygenFraction[core]!;
  course.foodLeftFraction[row] = foodOf(state) / given.all;
  course.quickLeftFraction[row] = total(state.fastKg) / given.quick;
}

/** Degradable matter put in, kg. */
interface Food {
  all: number;
  quick: number;
}

const foodOf = (state: PileState): number => total(state.fastKg) + total(state.slowKg);

function takeDue(waiting: Intervention[], seconds: number): Intervention[] {
  const due: Intervention[] = [];
  while (waiting.length > 0 && waiting[0]!.atSeconds <= seconds) due.push(waiting.shift()!);
  return due;
}

/** On their rounds, at nine in the morning, the keeper squeezes a handful and waters when it is too dry. */
function lookedAfter(spec: StorySpec, state: PileState, row: number): Intervention[] {
  const { waterBelowFraction, lookEveryDays, waterToFraction } = spec.tending;
  const seconds = row * stepMinutes * 60;
  const isLook = (seconds - 9 * 3600) % (lookEveryDays * daySeconds) === 0;
  if (waterBelowFraction === null || !isLook) return [];
  const inside = Math.min(moistureOf(state, core), moistureOf(state, shoulder));
  if (inside >= waterBelowFraction) return [];
  const litres = totalDryKg(state) * (waterToFraction / (1 - waterToFraction)) - total(state.waterKg);
  return litres > 1 ? [{ atSeconds: seconds, kind: 'water', litres, celsius: 14 }] : [];
}
