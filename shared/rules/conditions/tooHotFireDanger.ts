import { z } from 'zod';
import { isBeyondHigh } from '../../alarms/deadband.ts';
import { fireDangerAction, fireDangerCautions, fireDangerCelsius } from '../advice.ts';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { heatEvidence, measuredHeat } from '../pileEvidence.ts';
import type { PileView } from '../pileView.ts';
import { priorityOf } from '../priorityOf.ts';
import { isHighTruth } from '../truth.ts';

interface FireParameters extends CommonParameters {
  readonly limitCelsius: number;
  readonly deadbandCelsius: number;
  readonly risingFromCelsius: number;
  readonly risingCelsiusPerHour: number;
}

/** Long enough to tell a rise from noise, short enough to come before the limit does. */
const risingHours = 3;

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
    risingFromCelsius: number(
      'C',
      70,
      80,
      'Above this, a pile that still rises is not heated by life alone.',
    ),
    risingCelsiusPerHour: number('C/h', 0.05, 5, 'Rise that counts as still rising.'),
  }),
  defaults: () => ({
    ...commonDefaults,
    onDelayMinutes: 10,
    offDelayMinutes: 60,
    limitCelsius: fireDangerCelsius,
    deadbandCelsius: 2,
    risingFromCelsius: 76,
    risingCelsiusPerHour: 0.2,
  }),
  source:
    'advice flips near 80 C: stacked-hay guidance 79.4 C, Surrey Fire and Rescue 70-80 C; the compost figure, and 76 C and rising, are our choice',
  latching: true,
  truth: (view, parameters, wasActive) =>
    isHighTruth(view.hotCertainty, view.hotCelsius !== null && isDanger(view, parameters, wasActive)),
  findings: (view, { limitCelsius }) => ({
    evidence: heatEvidence(view),
    measured: measuredHeat(view, limitCelsius),
  }),
  suppression: () => null,
  priority: () => priorityOf('now', 'danger', 'seen'),
  words: () => ({ what: 'FIRE DANGER', firstAction: fireDangerAction, cautions: fireDangerCautions }),
};

function isDanger(view: PileView, parameters: FireParameters, wasActive: boolean): boolean {
  const { limitCelsius, deadbandCelsius, risingFromCelsius, risingCelsiusPerHour } = parameters;
  const hot = view.hotCelsius!;
  // At the limit counts: the ladder says "80 C and above".
  if (hot === limitCelsius || isBeyondHigh(hot, limitCelsius, deadbandCelsius, wasActive)) return true;
  if (wasActive) return hot >= Math.min(limitCelsius, risingFromCelsius) - deadbandCelsius;
  if (hot <= risingFromCelsius) return false;
  return (view.trendCelsiusPerHour(risingHours) ?? 0) >= risingCelsiusPerHour;
}

/** So hot, or rising where life should be failing, that opening could start flames; held until a person has looked. */
export const tooHotFireDanger = eraseParameters(condition);
