import { z } from 'zod';
import { isBeyondHigh } from '../../alarms/deadband.ts';
import type { Truth } from '../../alarms/timing.ts';
import { mayBeTurned, type PileMethod } from '../../yard/method.ts';
import { safeWords } from '../advice.ts';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { wettestWanted } from '../moistureLimits.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { entry, heatEvidence } from '../pileEvidence.ts';
import type { PileView } from '../pileView.ts';
import { priorityOf } from '../priorityOf.ts';
import { afterWork } from '../suppression.ts';

interface TooWetParameters extends CommonParameters {
  readonly limitFraction: number;
  readonly deadbandFraction: number;
  readonly fallingCelsiusPerDay: number;
  readonly aboveAirCelsius: number;
}

const fallHours = 24;
/** Less quick food left than this by estimate, and a falling heat says nothing of air (ours). */
const spentFraction = 0.4;

const condition: Condition<PileView, TooWetParameters> = {
  id: 'too-wet',
  name: 'Too wet',
  subject: 'pile',
  parameters: z.object({
    ...commonShape,
    limitFraction: number('fraction', 0.4, 0.95, 'Most moisture, wet basis.'),
    deadbandFraction: number('fraction', 0.005, 0.2, 'Must fall this far below before it counts as back.'),
    fallingCelsiusPerDay: number(
      'C/d',
      0.5,
      30,
      'Fall of the core over a day that says it gets too little air.',
    ),
    aboveAirCelsius: number(
      'C',
      0,
      40,
      'Only while the core is still this far above the air: a cold pile cannot fall.',
    ),
  }),
  defaults: (method) => ({
    ...commonDefaults,
    onDelayMinutes: 240,
    offDelayMinutes: 240,
    minimumMinutesBetweenTexts: 4320,
    limitFraction: wettestWanted[method],
    deadbandFraction: 0.03,
    fallingCelsiusPerDay: 3,
    aboveAirCelsius: 5,
  }),
  source:
    'above about 60-65 % hot work may go airless (Cornell right-mix page, AgriFutures); worms 90 %; cage 78 %, fall of 3 C a day: common practice, no source',
  latching: false,
  truth: wetAndFalling,
  findings: (view, { limitFraction }) => ({
    evidence: [
      ...heatEvidence(view),
      ...entry('core trend, 24 h', view.trendCelsiusPerHour(fallHours), 'C/h'),
    ],
    measured:
      view.moistureFraction === null
        ? null
        : { label: 'moisture', value: view.moistureFraction, limit: limitFraction, unit: 'fraction' },
  }),
  suppression: (view) => afterWork(view, 48),
  priority: () => priorityOf('soon', 'quality', 'likely'),
  words: (view) =>
    safeWords(view, {
      what: 'too wet, lacks air',
      firstAction: mayBeTurned(view.pile.method)
        ? 'Stop watering; turn it with dry, coarse stuff; cover it against rain.'
        : 'Stop watering, cover it against rain, check the air channels are open.',
      cautions: ['A sour smell means it lacks air. Gloves and mask; wash hands.'],
    }),
};

/** Methods that should be hot by their third day. */
const heating: readonly PileMethod[] = ['static-cage', 'hot-bin', 'turned-windrow', 'aerated-static-pile'];
const heatDueHours = 48;
const warmedCelsius = 45;

/** Heat was due and has not come: what is wet from the start drowns before it warms. */
function neverWarmed(view: PileView): boolean {
  const isDue = heating.includes(view.pile.method) && view.ageHours >= heatDueHours;
  return isDue && view.peakCelsius !== null && view.peakCelsius < warmedCelsius;
}

/** Wet alone harms little: airless is wet with heat falling away, or not coming. The driest channel is judged, so all of it is wet. */
function wetAndFalling(view: PileView, parameters: TooWetParameters, wasActive: boolean): Truth {
  const { limitFraction, deadbandFraction, fallingCelsiusPerDay, aboveAirCelsius } = parameters;
  if (view.moistureFraction === null) return 'unknown';
  if (!isBeyondHigh(view.moistureFraction, limitFraction, deadbandFraction, wasActive)) return 'false';
  if (view.moistureCertainty !== 'measured' || view.coreCelsius === null) return 'unknown';
  if (wasActive) return 'true';
  if (neverWarmed(view)) return (view.trendCelsiusPerHour(6) ?? 0) <= 0.1 ? 'true' : 'false';
  if (view.airCelsius !== null && view.coreCelsius - view.airCelsius < aboveAirCelsius) return 'false';
  // Cooling is what a pile does when its quick food is gone: wet or not, air would not bring the heat back.
  if (view.materialLeft.middle < spentFraction) return 'false';
  const slope = view.trendCelsiusPerHour(fallHours);
  if (slope === null) return 'unknown';
  return slope * 24 <= -fallingCelsiusPerDay ? 'true' : 'false';
}

/** Wet and losing its heat, or never warm: likely airless. */
export const tooWet = eraseParameters(condition);
