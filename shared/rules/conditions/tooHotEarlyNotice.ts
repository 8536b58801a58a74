import { z } from 'zod';
import { isBeyondHigh } from '../../alarms/deadband.ts';
import { mayBeTurned } from '../../yard/method.ts';
import { safeWords, steamCautions } from '../advice.ts';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { heatEvidence, measuredHeat } from '../pileEvidence.ts';
import type { PileView } from '../pileView.ts';
import { priorityOf } from '../priorityOf.ts';
import { isHighTruth } from '../truth.ts';

interface EarlyNoticeParameters extends CommonParameters {
  readonly limitCelsius: number;
  readonly deadbandCelsius: number;
}

const condition: Condition<PileView, EarlyNoticeParameters> = {
  id: 'too-hot-early-notice',
  name: 'Too hot: early notice',
  subject: 'pile',
  parameters: z.object({
    ...commonShape,
    limitCelsius: number('C', 30, 79, 'Core temperature from which the ceiling is near.'),
    deadbandCelsius: number('C', 0.5, 10, 'Must fall this far below the limit before it counts as back.'),
  }),
  defaults: () => ({ ...commonDefaults, onDelayMinutes: 60, limitCelsius: 65, deadbandCelsius: 2 }),
  source:
    '65 C: Cornell compost physics page (operator ceiling); delays and deadband: common practice, no source',
  latching: false,
  truth: (view, { limitCelsius, deadbandCelsius }, wasActive) =>
    isHighTruth(
      view.hotCertainty,
      view.hotCelsius !== null && isBeyondHigh(view.hotCelsius, limitCelsius, deadbandCelsius, wasActive),
    ),
  findings: (view, { limitCelsius }) => ({
    evidence: heatEvidence(view),
    measured: measuredHeat(view, limitCelsius),
  }),
  suppression: (view) =>
    view.isActive('too-hot-ceiling') || view.isActive('too-hot-fire-danger')
      ? 'a more pressing heat alarm says it already'
      : null,
  priority: () => priorityOf('later', 'quality', 'seen'),
  words: (view) =>
    safeWords(view, {
      what: 'core getting hot',
      firstAction: mayBeTurned(view.pile.method)
        ? 'Check moisture, plan a turn with water; read again within a day.'
        : 'Do not turn it. Check moisture and that the air channels are open.',
      cautions: ['Do not cover it tightly and do not add rich feed.', ...steamCautions],
    }),
};

/** Core near the ceiling: low priority, so by default it is seen on the wall rather than texted. */
export const tooHotEarlyNotice = eraseParameters(condition);
