import type { PileMethod } from '../../yard/method.ts';
import { gardenBin, ordinaryCage, type Scenario, turnedWindrow } from '../pileModel/scenarios.ts';
import type { CourseQuestion } from '../planner/predictCourse.ts';

/** A usual pile of each method the pile model knows; a bin is turned each week for six weeks. Ours. */
const usualPiles: Partial<Readonly<Record<PileMethod, Scenario>>> = {
  'static-cage': ordinaryCage,
  'hot-bin': {
    ...gardenBin,
    interventions: [7, 14, 21, 28, 35, 42].map((day) => ({ atSeconds: day * 86_400, kind: 'turn' })),
  },
  'turned-windrow': turnedWindrow,
};

/** Methods whose heat the forecast's lump can follow: they heat by themselves and then cool. */
export const forecastMethods: readonly PileMethod[] = [
  'static-cage',
  'hot-bin',
  'turned-windrow',
  'aerated-static-pile',
];

/** Standard deviations of what nobody said of this pile: moisture as wet basis, and density as a share. Ours. */
const unknownMix = { moistureDeviation: 0.05, densityDeviationShare: 0.12 } as const;
const usualDraws = 15;

/** The course a pile of this method usually takes, as a question for the pile model; null where there is no usual one. */
export function methodCourse(method: PileMethod, airCelsius: number, days: number): CourseQuestion | null {
  const usual = usualPiles[method];
  if (usual === undefined) return null;
  const { parameters, interventions } = usual;
  const weather = { airCelsius, dailySwingCelsius: 4 };
  return { parameters, interventions, ...weather, days, ...unknownMix, draws: usualDraws };
}
