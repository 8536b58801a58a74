import type { LimitsView } from '../../../shared/api/types.ts';
import type { PileMethod } from '../../../shared/yard/method.ts';
import { text } from './words.ts';

/** A temperature drawn across the chart. */
export interface Level {
  readonly celsius: number;
  readonly label: string;
  readonly stroke: string;
  readonly dash: readonly number[];
  /** The chart reaches up to it even when the pile does not. */
  readonly isAlwaysShown: boolean;
}

interface LevelOf extends Omit<Level, 'celsius'> {
  readonly condition: string;
  readonly parameter: string;
  readonly methods: readonly PileMethod[];
}

const hot: readonly PileMethod[] = ['static-cage', 'hot-bin', 'turned-windrow', 'aerated-static-pile'];
const cool: readonly PileMethod[] = ['worm-bed', 'curing-heap', 'leaf-heap'];
const red = '#9c1622';

/** Told apart by dash and by their words on the chart, not by colour alone. */
const drawn: readonly LevelOf[] = [
  level('too-hot-fire-danger', 'limitCelsius', text.levels.fireDanger, red, [], [...hot, ...cool], false),
  level('too-hot-ceiling', 'limitCelsius', text.levels.ceiling, red, [8, 6], [...hot, ...cool], false),
  level('too-hot-early-notice', 'limitCelsius', text.levels.earlyNotice, '#a8480a', [3, 5], hot, false),
  level('too-cold-range', 'highCelsius', text.levels.tooWarm, red, [8, 6], cool, true),
  level('too-cold-range', 'lowCelsius', text.levels.tooCold, '#3d5877', [8, 6], cool, true),
];

function level(
  condition: string,
  parameter: string,
  label: string,
  stroke: string,
  dash: readonly number[],
  methods: readonly PileMethod[],
  isAlwaysShown: boolean,
): LevelOf {
  return { condition, parameter, label, stroke, dash, methods, isAlwaysShown };
}

/** Sanitisation counts from here (40 CFR Part 503 Appendix B). */
const recordLevel: Level = {
  celsius: 55,
  label: text.levels.recordCounts,
  stroke: '#53584b',
  dash: [2, 5],
  isAlwaysShown: false,
};

/** The limits in force that belong on this pile's chart. A hot method's chart always reaches its ceiling. */
export function levelsOf({ method, conditions }: LimitsView): Level[] {
  const found = drawn.flatMap(({ condition, parameter, methods, ...look }) => {
    const parameters = conditions.find((candidate) => candidate.condition === condition)?.parameters;
    const value = parameters?.find(({ key }) => key === parameter)?.value;
    if (typeof value !== 'number' || !methods.includes(method)) return [];
    const isAlwaysShown = look.isAlwaysShown || (condition === 'too-hot-ceiling' && hot.includes(method));
    return [{ ...look, celsius: value, isAlwaysShown }];
  });
  return hot.includes(method) ? [...found, recordLevel] : found;
}
