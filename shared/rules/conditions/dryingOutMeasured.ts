import { z } from 'zod';
import { isBeyondLow } from '../../alarms/deadband.ts';
import type { PileMethod } from '../../yard/method.ts';
import { safeWords } from '../advice.ts';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { entry, moistureEvidence } from '../pileEvidence.ts';
import type { PileView } from '../pileView.ts';
import { isHighTruth } from '../truth.ts';

interface DryingParameters extends CommonParameters {
  readonly limitFraction: number;
  readonly deadbandFraction: number;
}

const limits: Readonly<Record<PileMethod, number>> = {
  'static-cage': 0.6,
  'hot-bin': 0.45,
  'turned-windrow': 0.45,
  'aerated-static-pile': 0.45,
  'worm-bed': 0.6,
  'curing-heap': 0.4,
  'leaf-heap': 0.45,
};

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
  }),
  defaults: (method) => ({
    ...commonDefaults,
    onDelayMinutes: 120,
    offDelayMinutes: 60,
    limitFraction: limits[method],
    deadbandFraction: 0.03,
  }),
  source:
    'hot work 45 %: upper end of the 40-45 % warning tier over Cornell limits; cage and worm bed 60 %: our choice below a 70 % target; curing 40 %: common practice, no source',
  latching: false,
  truth: (view, { limitFraction, deadbandFraction }, wasActive) =>
    isHighTruth(
      view.moistureCertainty,
      view.moistureFraction !== null &&
        isBeyondLow(view.moistureFraction, limitFraction, deadbandFraction, wasActive),
    ),
  findings: (view, { limitFraction }) => ({
    evidence: [...moistureEvidence(view), ...entry('core', view.coreCelsius, 'C')],
    measured:
      view.moistureFraction === null
        ? null
        : { label: 'moisture', value: view.moistureFraction, limit: limitFraction, unit: 'fraction' },
  }),
  suppression: () => null,
  priority: (view) =>
    view.pile.method === 'static-cage' || view.pile.method === 'worm-bed' ? 'high' : 'medium',
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

/** Moisture probe below the pile's limit. */
export const dryingOutMeasured = eraseParameters(condition);
