import { z } from 'zod';
import { isBeyondHigh } from '../../alarms/deadband.ts';
import { fireDangerAction, fireDangerCautions, fireDangerCelsius } from '../advice.ts';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { heatEvidence } from '../pileEvidence.ts';
import type { PileView } from '../pileView.ts';
import { isHighTruth } from '../truth.ts';

interface FireParameters extends CommonParameters {
  readonly limitCelsius: number;
  readonly deadbandCelsius: number;
}

const condition: Condition<PileView, FireParameters> = {
  id: 'too-hot-fire-danger',
  name: 'Too hot: fire danger',
  subject: 'pile',
  parameters: z.object({
    ...commonShape,
    limitCelsius: number(
      'C',
      70,
      80,
      'Core temperature from which the pile must not be opened. Cannot be raised above 80.',
    ),
    deadbandCelsius: number('C', 0.5, 10, 'Must fall this far below the limit before it counts as back.'),
  }),
  defaults: () => ({
    ...commonDefaults,
    onDelayMinutes: 10,
    offDelayMinutes: 60,
    limitCelsius: fireDangerCelsius,
    deadbandCelsius: 2,
  }),
  source:
    'advice flips near 80 C: stacked-hay guidance 79.4 C, Surrey Fire and Rescue 70-80 C; the compost figure is our choice',
  latching: true,
  truth: (view, { limitCelsius, deadbandCelsius }, wasActive) =>
    isHighTruth(
      view.coreCertainty,
      view.coreCelsius !== null &&
        // At the limit counts: the ladder says "80 C and above".
        (view.coreCelsius === limitCelsius ||
          isBeyondHigh(view.coreCelsius, limitCelsius, deadbandCelsius, wasActive)),
    ),
  findings: (view, { limitCelsius }) => ({
    evidence: heatEvidence(view),
    measured:
      view.coreCelsius === null
        ? null
        : { label: 'core', value: view.coreCelsius, limit: limitCelsius, unit: 'C' },
  }),
  suppression: () => null,
  priority: () => 'highest',
  words: () => ({ what: 'FIRE DANGER', firstAction: fireDangerAction, cautions: fireDangerCautions }),
};

/** Core so hot that opening the pile could start flames; held until a person has looked. */
export const tooHotFireDanger = eraseParameters(condition);
