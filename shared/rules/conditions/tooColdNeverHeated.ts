import { z } from 'zod';
import type { Truth } from '../../alarms/timing.ts';
import type { PileMethod } from '../../yard/method.ts';
import { safeWords } from '../advice.ts';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { heatEvidence, measuredCore } from '../pileEvidence.ts';
import type { PileView } from '../pileView.ts';
import { priorityOf } from '../priorityOf.ts';
import { justBuilt } from '../suppression.ts';

interface NeverHeatedParameters extends CommonParameters {
  readonly limitCelsius: number;
  readonly riseAboveAirCelsius: number;
  readonly deadbandCelsius: number;
  readonly days: number;
  readonly daysInFrost: number;
}

const heatingMethods: readonly PileMethod[] = [
  'static-cage',
  'hot-bin',
  'turned-windrow',
  'aerated-static-pile',
];

const condition: Condition<PileView, NeverHeatedParameters> = {
  id: 'too-cold-never-heated',
  name: 'Too cold: never heated',
  subject: 'pile',
  parameters: z.object({
    ...commonShape,
    limitCelsius: number('C', 25, 60, 'Core temperature a working pile has reached by now.'),
    riseAboveAirCelsius: number('C', 2, 30, 'Least rise above the air that counts as heating.'),
    deadbandCelsius: number('C', 0.5, 10, 'Must rise this far above the limit before it counts as back.'),
    days: number('d', 1, 30, 'Days after building before it is judged.'),
    daysInFrost: number('d', 1, 60, 'The same when the air has been below freezing since.'),
  }),
  defaults: (method) => ({
    ...commonDefaults,
    enabled: heatingMethods.includes(method),
    onDelayMinutes: 120,
    offDelayMinutes: 60,
    limitCelsius: 40,
    riseAboveAirCelsius: 10,
    deadbandCelsius: 2,
    days: 4,
    daysInFrost: 7,
  }),
  source:
    '40-50 C in 2-3 days: Cornell compost physics page; the 4 and 7 day limits: common practice, no source',
  latching: false,
  truth: neverHeated,
  findings: (view, { limitCelsius }) => ({
    evidence: heatEvidence(view),
    measured: measuredCore(view, limitCelsius),
  }),
  suppression: (view) =>
    justBuilt(view) ?? (view.isActive('too-wet') ? 'that it is too wet says it already' : null),
  priority: () => priorityOf('later', 'batch', 'seen'),
  words: (view) =>
    safeWords(view, {
      what: 'has not heated',
      firstAction: 'Squeeze a handful from inside: dry, or wet and sour? Log it.',
      cautions: ['Do not add nitrogen before the moisture is known.', 'Gloves and mask; wash hands.'],
    }),
};

/** Judged by the highest the pile has ever been: one that heated and cooled again has heated. */
function neverHeated(view: PileView, parameters: NeverHeatedParameters, wasActive: boolean): Truth {
  if (view.ageHours < parameters.days * 24) return 'false';
  if (view.coreCelsius === null || view.peakCelsius === null || view.coreCertainty !== 'measured')
    return 'unknown';
  const aim = parameters.limitCelsius + (wasActive ? parameters.deadbandCelsius : 0);
  const rise = view.airCelsius === null ? Number.POSITIVE_INFINITY : view.peakCelsius - view.airCelsius;
  if (view.peakCelsius >= aim && rise >= parameters.riseAboveAirCelsius) return 'false';
  return tooSoonInFrost(view, parameters) ? 'false' : 'true';
}

function tooSoonInFrost(view: PileView, parameters: NeverHeatedParameters): boolean {
  if (view.ageHours >= parameters.daysInFrost * 24) return false;
  const air = view.meanAirCelsius(parameters.days);
  return air !== null && air < 0;
}

/** Core never reached working heat some days after building. */
export const tooColdNeverHeated = eraseParameters(condition);
