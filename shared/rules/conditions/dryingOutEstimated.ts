import { z } from 'zod';
import { isBeyondLow } from '../../alarms/deadband.ts';
import type { Truth } from '../../alarms/timing.ts';
import type { PileMethod } from '../../yard/method.ts';
import { safeWords } from '../advice.ts';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { driestWanted } from '../moistureLimits.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { bandEvidence, entry, heatEvidence } from '../pileEvidence.ts';
import type { PileView } from '../pileView.ts';
import { priorityOf } from '../priorityOf.ts';
import { afterWork } from '../suppression.ts';

interface EstimatedParameters extends CommonParameters {
  readonly limitFraction: number;
  readonly deadbandFraction: number;
}

/** Where heat drives the water out; a worm bed or curing heap dries by wind and sun, which nothing here measures. */
const dryByHeat: readonly PileMethod[] = [
  'static-cage',
  'hot-bin',
  'turned-windrow',
  'aerated-static-pile',
  'leaf-heap',
];

const condition: Condition<PileView, EstimatedParameters> = {
  id: 'drying-out-estimated',
  name: 'Drying out: estimated',
  subject: 'pile',
  parameters: z.object({
    ...commonShape,
    limitFraction: number('fraction', 0.2, 0.85, 'Least moisture, wet basis.'),
    deadbandFraction: number('fraction', 0.005, 0.2, 'Must rise this far above before it counts as back.'),
  }),
  defaults: (method) => ({
    ...commonDefaults,
    enabled: dryByHeat.includes(method),
    onDelayMinutes: 360,
    offDelayMinutes: 60,
    minimumMinutesBetweenTexts: 10_080,
    limitFraction: driestWanted[method],
    deadbandFraction: 0.03,
  }),
  source:
    'limits as measured; water balance: heat from food used up, 17.5 MJ a kg, less what the skin loses, leaves in moist air (pack, 5.1-5.8); skin loss, usual mix and band: ours, no source; rain is not counted',
  latching: false,
  truth: dryingOut,
  findings: (view, { limitFraction }) => ({
    evidence: [
      bandEvidence('estimated moisture', view.estimatedMoisture, '%'),
      ...entry('limit', limitFraction * 100, '%'),
      ...heatEvidence(view),
    ],
    measured: {
      label: 'moisture, estimated',
      value: view.estimatedMoisture.middle,
      limit: limitFraction,
      unit: 'fraction',
    },
  }),
  suppression: (view) => afterWork(view, 72),
  priority: (view, { limitFraction }) => {
    // More probable than not is what the middle of the band says.
    const isLikely = view.estimatedMoisture.middle < limitFraction;
    return priorityOf('later', 'batch', isLikely ? 'likely' : 'possible');
  },
  words: (view) =>
    safeWords(view, {
      what: 'probably drying out, est.',
      firstAction: 'No moisture probe: squeeze a handful from inside; if dry, water it.',
      cautions: [
        'Write the watering in the journal, with litres, so that the estimate follows.',
        'Dry dust carries germs: damp it first, wear a mask.',
      ],
    }),
};

/** Judged only where nobody measures, and only from a core that has been known: an estimate never argues with a probe. */
function dryingOut(view: PileView, parameters: EstimatedParameters, wasActive: boolean): Truth {
  if (view.moistureCertainty !== 'unknown' || view.peakCelsius === null) return 'false';
  const { limitFraction, deadbandFraction } = parameters;
  return isBeyondLow(view.estimatedMoisture.middle, limitFraction, deadbandFraction, wasActive)
    ? 'true'
    : 'false';
}

/** The heat given off has probably taken more water than the pile can spare. */
export const dryingOutEstimated = eraseParameters(condition);
