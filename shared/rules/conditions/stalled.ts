import { z } from 'zod';
import type { Truth } from '../../alarms/timing.ts';
import type { PileMethod } from '../../yard/method.ts';
import { safeWords } from '../advice.ts';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { bandEvidence, heatEvidence, measuredCore } from '../pileEvidence.ts';
import type { PileView } from '../pileView.ts';
import { priorityOf } from '../priorityOf.ts';
import { afterWork, justBuilt, warmAgain } from '../suppression.ts';

interface StalledParameters extends CommonParameters {
  readonly belowCelsius: number;
  readonly deadbandCelsius: number;
  readonly hotDays: number;
  readonly enoughHotHours: number;
  readonly graceHoursAfterWork: number;
  readonly leastLeftFraction: number;
}

/**
 * Days of heat to be expected at most once a pile is hot, whatever the model says is left: in a cage heating is over in
 * the first days to weeks. 0 = never judged.
 */
const hotDays: Readonly<Record<PileMethod, number>> = {
  'static-cage': 21,
  'hot-bin': 30,
  'turned-windrow': 60,
  'aerated-static-pile': 40,
  'worm-bed': 0,
  'curing-heap': 0,
  'leaf-heap': 0,
};

const condition: Condition<PileView, StalledParameters> = {
  id: 'stalled',
  name: 'Stalled',
  subject: 'pile',
  parameters: z.object({
    ...commonShape,
    belowCelsius: number('C', 20, 60, 'Core below this, and not rising, has stopped working.'),
    deadbandCelsius: number('C', 0.5, 10, 'Must rise this far above before it counts as back.'),
    hotDays: number('d', 0, 120, 'Days of heat to be expected from the first 40 C; later falls are natural.'),
    enoughHotHours: number(
      'h',
      0,
      2000,
      'After so many hours above 55 C it has had its heat and may cool; 0 = not asked.',
    ),
    graceHoursAfterWork: number(
      'h',
      0,
      96,
      'Hours after opening, turning or watering in which a fall is expected.',
    ),
    leastLeftFraction: number(
      'fraction',
      0.05,
      0.95,
      'Only while at least this share of the readily degradable material is left by estimate.',
    ),
  }),
  defaults: (method) => ({
    ...commonDefaults,
    enabled: hotDays[method] > 0,
    onDelayMinutes: 360,
    // Warm for an afternoon after a turn is not yet working again.
    offDelayMinutes: 1440,
    minimumMinutesBetweenTexts: 20_160,
    belowCelsius: 40,
    deadbandCelsius: 3,
    hotDays: Math.max(hotDays[method], 1),
    // A cage heats for a few days and is then meant to be cool for months.
    enoughHotHours: method === 'static-cage' ? 72 : 0,
    graceHoursAfterWork: 24,
    leastLeftFraction: 0.55,
  }),
  source:
    'static cage heats for a few days, over in days to weeks, turned windrows 3-9 weeks (pack, weak or unconfirmed); limits, and how fast quick food is used up: common practice, no source',
  latching: false,
  truth: stalledTruth,
  findings: (view, { belowCelsius }) => ({
    evidence: [
      ...heatEvidence(view),
      bandEvidence('readily degradable material left, estimated', view.materialLeft, '%'),
    ],
    measured: measuredCore(view, belowCelsius),
  }),
  suppression: (view, { graceHoursAfterWork, belowCelsius }) =>
    justBuilt(view) ?? afterWork(view, graceHoursAfterWork) ?? warmAgain(view, belowCelsius),
  priority: () => priorityOf('later', 'batch', 'likely'),
  words: (view) =>
    safeWords(view, {
      what: 'stopped heating early',
      firstAction: 'Squeeze a handful from inside: dry, or wet and sour? Log it.',
      cautions: ['Do not add nitrogen before the moisture is known.', 'Gloves and mask; wash hands.'],
    }),
};

/** Only a pile that was hot can stall, only while there is quick food left, and not while it comes back. */
function stalledTruth(view: PileView, parameters: StalledParameters, wasActive: boolean): Truth {
  const startedMs = view.firstAt40Ms;
  if (startedMs === null || view.peakCelsius! < parameters.belowCelsius + 5) return 'false';
  if (view.nowMs - startedMs > parameters.hotDays * 86_400_000) return 'false';
  if (!wasActive && hasHadItsHeat(view, parameters)) return 'false';
  if (view.coreCelsius === null || view.coreCertainty !== 'measured') return 'unknown';
  const limit = parameters.belowCelsius + (wasActive ? parameters.deadbandCelsius : 0);
  if (view.coreCelsius >= limit) return 'false';
  // Asked at the start only: while it stands still it does not finish by itself.
  if (!wasActive && view.materialLeft.middle < parameters.leastLeftFraction) return 'false';
  const slope = view.trendCelsiusPerHour(6);
  return wasActive || slope === null || slope <= 0.1 ? 'true' : 'false';
}

function hasHadItsHeat({ hoursAbove55 }: PileView, { enoughHotHours }: StalledParameters): boolean {
  return enoughHotHours > 0 && hoursAbove55 >= enoughHotHours;
}

/** Heat fell away while it was still to be expected. */
export const stalled = eraseParameters(condition);
