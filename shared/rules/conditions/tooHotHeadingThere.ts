import { z } from 'zod';
import type { Truth } from '../../alarms/timing.ts';
import { mayBeTurned } from '../../yard/method.ts';
import { safeWords, steamCautions } from '../advice.ts';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { hoursUntil } from '../outlook.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { entry, heatEvidence, measuredHeat } from '../pileEvidence.ts';
import type { PileView } from '../pileView.ts';
import { priorityOf } from '../priorityOf.ts';

interface HeadingParameters extends CommonParameters {
  readonly limitCelsius: number;
  readonly fromCelsius: number;
  readonly hoursAhead: number;
}

/** Half of the stretch the outlook looks back over: how it slowed between the halves is how it goes on. */
const stretchHours = 4;

const condition: Condition<PileView, HeadingParameters> = {
  id: 'too-hot-heading-there',
  name: 'Too hot: heading there',
  subject: 'pile',
  parameters: z.object({
    ...commonShape,
    limitCelsius: number('C', 30, 79, 'The ceiling it is heading for.'),
    fromCelsius: number(
      'C',
      20,
      79,
      'Not foretold below this: every pile climbs fast when young, and most level off.',
    ),
    hoursAhead: number('h', 1, 48, 'Foretold when the ceiling is nearer than this.'),
  }),
  defaults: () => ({
    ...commonDefaults,
    onDelayMinutes: 60,
    offDelayMinutes: 120,
    // Who was told it is near the ceiling knows; that it is past it is another alarm and never waits.
    minimumMinutesBetweenTexts: 4320,
    limitCelsius: 71,
    fromCelsius: 66,
    hoursAhead: 12,
  }),
  source:
    'ceiling 71 C (160 F): North Carolina DEQ; 12 h, the line (Theil-Sen, nine in ten) and where it is silent: common practice, no source',
  latching: false,
  truth: headingThere,
  findings: (view, { limitCelsius, hoursAhead }) => ({
    evidence: [...heatEvidence(view), ...foretold(view, limitCelsius, hoursAhead)],
    measured: measuredHeat(view, limitCelsius),
  }),
  suppression: (view) =>
    view.isActive('too-hot-ceiling') || view.isActive('too-hot-fire-danger')
      ? 'a more pressing heat alarm says it already'
      : null,
  priority: () => priorityOf('soon', 'quality', 'likely'),
  words: (view) =>
    safeWords(view, {
      what: 'heading for too hot',
      firstAction: mayBeTurned(view.pile.method)
        ? 'Check moisture; turn it and wet it today, before it is too hot.'
        : 'Do not turn it. Check the air channels are open and wet it slowly.',
      cautions: steamCautions,
    }),
};

/**
 * True only when three things agree: the surest slope still rises, the steady line gets there in time, and so does the
 * rise as it slows down. A pile that levels off below the ceiling by itself seldom makes all three.
 */
function headingThere(view: PileView, parameters: HeadingParameters, wasActive: boolean): Truth {
  const { limitCelsius, fromCelsius, hoursAhead } = parameters;
  if (view.coreCelsius === null) return 'unknown';
  if (view.coreCelsius < fromCelsius) return view.coreCertainty === 'measured' ? 'false' : 'unknown';
  const outlook = view.heatOutlook();
  if (outlook === null) return 'unknown';
  const { slope, slopeLow } = outlook.line;
  if (slopeLow <= 0) return 'false';
  if (view.coreCelsius >= limitCelsius) return wasActive ? 'true' : 'false';
  const within = wasActive ? 2 * hoursAhead : hoursAhead;
  if ((limitCelsius - view.coreCelsius) / slope > within) return 'false';
  const isSlowedThere = hoursUntil(outlook, view.coreCelsius, limitCelsius, stretchHours, within) <= within;
  return isSlowedThere ? 'true' : 'false';
}

function foretold(view: PileView, limitCelsius: number, hoursAhead: number) {
  const outlook = view.heatOutlook();
  if (outlook === null || view.coreCelsius === null || view.coreCelsius >= limitCelsius) return [];
  const { slope, slopeLow, slopeHigh } = outlook.line;
  const hours = (perHour: number) => (limitCelsius - view.coreCelsius!) / perHour;
  const slowed = hoursUntil(outlook, view.coreCelsius, limitCelsius, stretchHours, 2 * hoursAhead);
  return [
    ...entry('ceiling in, at this pace', slope > 0 ? hours(slope) : null, 'h'),
    ...entry('at the earliest', slopeHigh > 0 ? hours(slopeHigh) : null, 'h'),
    ...entry('at the latest', slopeLow > 0 ? hours(slopeLow) : null, 'h'),
    ...entry('as it slows down', Number.isFinite(slowed) ? slowed : null, 'h'),
  ];
}

/** Rising so that the ceiling is less than half a day away. */
export const tooHotHeadingThere = eraseParameters(condition);
