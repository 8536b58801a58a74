import { z } from 'zod';
import { isBeyondHigh } from '../../alarms/deadband.ts';
import { mayBeTurned } from '../../yard/method.ts';
import { safeWords, steamCautions } from '../advice.ts';
import { type CommonParameters, type Condition, type ConditionWords, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { heatEvidence, measuredHeat } from '../pileEvidence.ts';
import type { PileView } from '../pileView.ts';
import { priorityOf } from '../priorityOf.ts';
import { isHighTruth } from '../truth.ts';

interface CeilingParameters extends CommonParameters {
  readonly limitCelsius: number;
  readonly deadbandCelsius: number;
}

const condition: Condition<PileView, CeilingParameters> = {
  id: 'too-hot-ceiling',
  name: 'Too hot: ceiling',
  subject: 'pile',
  parameters: z.object({
    ...commonShape,
    limitCelsius: number('C', 30, 79, 'Highest safe core temperature.'),
    deadbandCelsius: number('C', 0.5, 10, 'Must fall this far below the limit before it counts as back.'),
  }),
  defaults: () => ({ ...commonDefaults, limitCelsius: 71, deadbandCelsius: 2 }),
  source: '71 C (160 F): North Carolina DEQ fire precaution; delays and deadband: common practice, no source',
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
    view.isActive('too-hot-fire-danger') ? 'the fire danger alarm says it already' : null,
  priority: () => priorityOf('soon', 'batch', 'seen'),
  words: (view) => safeWords(view, wordsBelowFireDanger(view)),
};

/** The ladder of the reference pack, 5.3, by what the pile has been at within a day. */
function wordsBelowFireDanger(view: PileView): ConditionWords {
  const { method } = view.pile;
  const words = (firstAction: string, ...more: string[]) => ({
    what: 'core too hot',
    firstAction,
    cautions: [...steamCautions, ...more],
  });
  if (method === 'static-cage') return words('Do not turn it. Check the air channels are open, then wet it.');
  if (method === 'aerated-static-pile')
    return words('Do not turn it. Check blower and air pipes, then wet it slowly.');
  if ((view.hottestOfDayCelsius ?? 0) >= 71)
    return words(
      'Open the hot part in small bites, hose charged and ready; wet it.',
      'Do not turn the whole pile dry; do not leave it unwatched overnight.',
    );
  return mayBeTurned(method)
    ? words('Turn it and wet it while turning; read again within a day.')
    : words('Make it lower and wet it slowly; read again within a day.');
}

/** Core above the safe ceiling. */
export const tooHotCeiling = eraseParameters(condition);
