import { z } from 'zod';
import { isBeyondHigh, isBeyondLow } from '../../alarms/deadband.ts';
import type { Truth } from '../../alarms/timing.ts';
import { wormLevels } from '../../compost/stability/worms.ts';
import type { PileMethod } from '../../yard/method.ts';
import { safeWords } from '../advice.ts';
import { type CommonParameters, type Condition, type ConditionWords, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { entry, heatEvidence, measuredCore } from '../pileEvidence.ts';
import type { PileView } from '../pileView.ts';
import { priorityOf } from '../priorityOf.ts';
import { afterWork } from '../suppression.ts';

interface RangeParameters extends CommonParameters {
  readonly lowCelsius: number;
  readonly highCelsius: number;
  readonly deadbandCelsius: number;
}

/** A curing heap that reaches this is heating again; worms may be harmed from 30 C, so 28 C leaves time to act. */
const curingRange = { lowCelsius: 1, highCelsius: 45 };
const wormRange = { lowCelsius: wormLevels.coldBelowCelsius, highCelsius: wormLevels.warmAboveCelsius };

/** Methods that may hold worms, or cure; the others have no such range. */
const judged: readonly PileMethod[] = ['worm-bed', 'curing-heap', 'static-cage', 'leaf-heap'];

const condition: Condition<PileView, RangeParameters> = {
  id: 'too-cold-range',
  name: 'Outside its range: frost, or too warm for worms or curing',
  subject: 'pile',
  parameters: z.object({
    ...commonShape,
    lowCelsius: number('C', -10, 20, 'Lowest core temperature worms or curing should have.'),
    highCelsius: number('C', 20, 60, 'Highest core temperature worms or curing should have.'),
    deadbandCelsius: number('C', 0.5, 10, 'Must come this far back inside before it counts as back.'),
  }),
  defaults: (method) => ({
    ...commonDefaults,
    enabled: judged.includes(method),
    onDelayMinutes: 120,
    offDelayMinutes: 240,
    minimumMinutesBetweenTexts: 1440,
    ...(method === 'curing-heap' ? curingRange : wormRange),
    deadbandCelsius: 2,
  }),
  source:
    'worms: keep 15-25 C, survive 0-35 C (NC State), harmed above 30 C; 5 and 28 C are our choice. Curing below 45 C: AgriFutures; frost: common practice, no source',
  latching: false,
  truth: outsideRange,
  findings: (view, parameters) => ({
    evidence: [
      ...heatEvidence(view),
      ...entry('lowest wanted', parameters.lowCelsius, 'C'),
      ...entry('highest wanted', parameters.highCelsius, 'C'),
    ],
    measured: measuredCore(view, isWarm(view, parameters) ? parameters.highCelsius : parameters.lowCelsius),
  }),
  suppression: (view) => afterWork(view, 12),
  priority: (view, parameters) => {
    if (!isWarm(view, parameters)) return priorityOf('soon', 'quality', view.hasWorms ? 'seen' : 'possible');
    if (!view.hasWorms) return priorityOf('later', 'quality', 'seen');
    const isDeadly = (view.coreCelsius ?? 0) > wormLevels.criticalAboveCelsius;
    return priorityOf(isDeadly ? 'now' : 'soon', isDeadly ? 'batch' : 'quality', 'seen');
  },
  words: (view, parameters) => safeWords(view, wordsFor(view, isWarm(view, parameters))),
};

function wordsFor({ hasWorms }: PileView, warm: boolean): ConditionWords {
  if (hasWorms && warm)
    return {
      what: 'too warm for worms',
      firstAction: 'Stop feeding, shade it, open the cover, water lightly with cool water.',
      cautions: ['From 35 C worms die. Give them a cool corner to move to.'],
    };
  if (hasWorms)
    return {
      what: 'too cold for worms',
      firstAction: 'Cover it with straw, sacks or fleece; feed little until it warms.',
      cautions: ['Worms survive down to about 0 C only in the middle of a deep bed.'],
    };
  if (warm)
    return {
      what: 'heating again',
      firstAction: 'It is not cured yet: check moisture, keep it low and let air in.',
      cautions: ['A dry heap that is wetted wakes up. Gloves and mask; wash hands.'],
    };
  return {
    what: 'near frost',
    firstAction: 'Cover it; curing stops in frost and goes on when it thaws.',
    cautions: ['Cold is no proof that it is done.'],
  };
}

function isWarm(view: PileView, { lowCelsius, highCelsius }: RangeParameters): boolean {
  return (view.coreCelsius ?? 0) > (lowCelsius + highCelsius) / 2;
}

/** Only where worms live or curing goes on: a static cage is judged from the day worms are added. */
function outsideRange(view: PileView, parameters: RangeParameters, wasActive: boolean): Truth {
  if (view.pile.method !== 'curing-heap' && !view.hasWorms) return 'false';
  if (view.coreCelsius === null) return 'unknown';
  const { lowCelsius, highCelsius, deadbandCelsius } = parameters;
  const warm = isWarm(view, parameters);
  if (warm && isBeyondHigh(view.coreCelsius, highCelsius, deadbandCelsius, wasActive)) return 'true';
  if (view.coreCertainty !== 'measured') return 'unknown';
  return !warm && isBeyondLow(view.coreCelsius, lowCelsius, deadbandCelsius, wasActive) ? 'true' : 'false';
}

/** A worm bed, a cage with worms or a curing heap outside the temperatures it needs. */
export const tooColdRange = eraseParameters(condition);
