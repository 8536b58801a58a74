import { judgeAgainst, type TargetRange, type TargetVerdict, targets } from '../mix/targets.ts';
import type { GaugedName, PlannedMix, Ranged } from './mixRanges.ts';
import { gaugedNames } from './mixRanges.ts';
import type { Plan } from './plan.ts';

/** One quantity of the mix against what to aim for. */
export interface Gauge {
  readonly name: GaugedName;
  /** `null`: not known, see `missing`. */
  readonly reading: Ranged | null;
  /** The source the scale shows. */
  readonly target: TargetRange;
  readonly verdict: TargetVerdict | null;
  /** Verdicts at the low and the high end of the reading: they differ when the ingredients' ranges matter. */
  readonly couldBe: readonly [TargetVerdict, TargetVerdict] | null;
  /** What the other sources say of the same value. */
  readonly others: readonly { readonly target: TargetRange; readonly verdict: TargetVerdict }[];
  readonly scale: readonly [low: number, high: number];
}

/**
 * Moisture for a pile nobody turns: about 70 % throughout (pack section 6, from memory, unconfirmed), warning below
 * 60 % (ours); the span around 70 is ours.
 */
export const staticCageMoisture: TargetRange = {
  property: 'moisture',
  acceptable: { low: 0.6, high: 0.75 },
  preferred: { low: 0.65, high: 0.72 },
  source: 'Never-turned cage: about 70 % as recalled; the span around it is ours',
  status: 'MU',
};

const propertyOf = {
  carbonToNitrogen: 'carbon-to-nitrogen',
  moistureFraction: 'moisture',
  freeAirSpace: 'free-air-space',
  bulkDensity: 'bulk-density',
} as const;

const scales: Readonly<Record<GaugedName, readonly [number, number]>> = {
  carbonToNitrogen: [5, 75],
  moistureFraction: [0.2, 0.9],
  freeAirSpace: [0, 0.9],
  bulkDensity: [100, 1000],
};

/** Free air space in a cage comes to more than sources ask of heaps; wet-density guides suppose windrows. */
export function gaugesOf(plan: Plan, mix: PlannedMix): Gauge[] {
  return gaugedNames.map((name) => gaugeOf(name, mix.ranges?.[name] ?? null, targetsFor(plan, name)));
}

/** Targets of a quantity with the one to draw first: for never-turned piles the moisture such piles are kept at. */
export function targetsFor(plan: Plan, name: GaugedName): TargetRange[] {
  const printed = targets.filter(({ property }) => property === propertyOf[name]);
  const both = printed.filter(({ acceptable, preferred }) => acceptable !== null && preferred !== null);
  const first = both[0] ?? bulkDensityTarget;
  const rest = printed.filter((target) => target !== first);
  if (name === 'bulkDensity') return [bulkDensityTarget, ...printed];
  const neverTurned = plan.running.turnEveryDays === null;
  return name === 'moistureFraction' && neverTurned ? [staticCageMoisture, ...printed] : [first, ...rest];
}

/** No source prints both ends for bulk density: the two that agree, put together. */
const bulkDensityTarget: TargetRange = {
  property: 'bulk-density',
  acceptable: { low: null, high: 653 },
  preferred: { low: 475, high: 593 },
  source: 'Technical Note 24 (475-593 kg/m3); upper guide 653 kg/m3 (1100 lb/yd3) from memory',
  status: 'MU',
};

function gaugeOf(name: GaugedName, reading: Ranged | null, [target, ...rest]: TargetRange[]): Gauge {
  const scale = scales[name];
  if (target === undefined) throw new RangeError(`there is no target for ${name}`);
  if (reading === null) return { name, reading, target, verdict: null, couldBe: null, others: [], scale };
  return {
    name,
    reading,
    target,
    verdict: judge(target, reading.value),
    couldBe: [judge(target, reading.low), judge(target, reading.high)],
    others: rest.map((each) => ({ target: each, verdict: judge(each, reading.value) })),
    scale,
  };
}

/** Judged as finely as it is shown: 30.0004 is not beyond 30. */
export function judge(target: TargetRange, value: number): TargetVerdict {
  return judgeAgainst(target, Number(value.toPrecision(3)));
}
