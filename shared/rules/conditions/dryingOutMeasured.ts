import { z } from 'zod';
import { isBeyondLow } from '../../alarms/deadband.ts';
import type { Truth } from '../../alarms/timing.ts';
import { safeWords } from '../advice.ts';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { driestWanted } from '../moistureLimits.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { entry, moistureEvidence } from '../pileEvidence.ts';
import type { PileView } from '../pileView.ts';
import { priorityOf } from '../priorityOf.ts';
import { isHighTruth } from '../truth.ts';

interface DryingParameters extends CommonParameters {
  readonly limitFraction: number;
  readonly deadbandFraction: number;
  readonly daysAhead: number;
}

const condition: Condition<PileView, DryingParameters> = {
  id: 'drying-out-measured',
  name: 'Drying out: measured',
  subject: 'pile',
  parameters: z.object({
    ...commonShape,
    limitFraction: number('fraction', 0.2, 0.85, 'Least moisture, wet basis.'),
    deadbandFraction: number(
      'fraction',
      0.005,
      0.2,
      'Must rise this far above the limit before it counts as back.',
    ),
    daysAhead: number(
      'd',
      0,
      14,
      'Also true when the trend reaches the limit within this; 0 = not foretold.',
    ),
  }),
  defaults: (method) => ({
    ...commonDefaults,
    onDelayMinutes: 120,
    offDelayMinutes: 60,
    limitFraction: driestWanted[method],
    deadbandFraction: 0.03,
    daysAhead: 3,
  }),
  source:
    'hot work 45 %: upper end of the 40-45 % warning tier over Cornell limits; cage and worm bed 60 %: our choice below a 70 % target; curing 40 %, 3 days ahead: common practice, no source',
  latching: false,
  truth: dryingOut,
  findings: (view, { limitFraction }) => ({
    evidence: [
      ...moistureEvidence(view),
      ...entry('dry in, at this pace', daysUntilDry(view, limitFraction), 'd'),
      ...entry('core', view.coreCelsius, 'C'),
    ],
    measured:
      view.moistureFraction === null
        ? null
        : { label: 'moisture', value: view.moistureFraction, limit: limitFraction, unit: 'fraction' },
  }),
  suppression: () => null,
  priority: (view, { limitFraction }) => {
    if (!isDry(view, limitFraction)) return priorityOf('soon', 'quality', 'likely');
    const needsWater = view.pile.method === 'static-cage' || view.hasWorms;
    return priorityOf('soon', needsWater ? 'batch' : 'quality', 'seen');
  },
  words: (view) =>
    safeWords(view, {
      what: 'drying out',
      firstAction: 'Squeeze-test it; if dry, water slowly from the top, in several rounds.',
      cautions: [
        'Dry dust carries germs: damp it first, wear a mask.',
        'A dry pile in hot weather can catch fire.',
      ],
    }),
};

function isDry({ moistureFraction }: PileView, limitFraction: number): boolean {
  return moistureFraction !== null && moistureFraction < limitFraction;
}

/** Days until the moisture reaches the limit if it goes on falling; null when it surely does not fall. */
function daysUntilDry(view: PileView, limitFraction: number): number | null {
  const outlook = view.moistureOutlook();
  if (outlook === null || view.moistureFraction === null || outlook.line.slopeHigh >= 0) return null;
  const perHour = -outlook.line.slope;
  return perHour <= 0 ? null : Math.max(0, (view.moistureFraction - limitFraction) / perHour / 24);
}

function dryingOut(view: PileView, parameters: DryingParameters, wasActive: boolean): Truth {
  const { limitFraction, deadbandFraction, daysAhead } = parameters;
  if (view.moistureFraction === null) return 'unknown';
  const isBeyond = isBeyondLow(view.moistureFraction, limitFraction, deadbandFraction, wasActive);
  const isSoon =
    !isBeyond && (daysUntilDry(view, limitFraction) ?? Infinity) < (wasActive ? 1.5 : 1) * daysAhead;
  return isHighTruth(view.moistureCertainty, isBeyond || isSoon);
}

/** Moisture probe below the pile's limit, or falling so that it will be within days. */
export const dryingOutMeasured = eraseParameters(condition);
