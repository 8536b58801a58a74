import { z } from 'zod';
import type { Evidence } from '../../alarms/alarm.ts';
import { isBeyondHigh } from '../../alarms/deadband.ts';
import { fireDangerAction, fireDangerCautions, fireDangerCelsius } from '../advice.ts';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { entry, heatEvidence, measuredHeat } from '../pileEvidence.ts';
import type { PileView } from '../pileView.ts';
import { priorityOf } from '../priorityOf.ts';
import { isHighTruth } from '../truth.ts';

interface FireParameters extends CommonParameters {
  readonly limitCelsius: number;
  readonly deadbandCelsius: number;
  readonly risingFromCelsius: number;
  readonly risingCelsiusPerHour: number;
}

/**
 * A rise is told from noise over the longer stretch; twice as fast, over the shorter: the same rise, seen sooner. Where
 * life should be failing, six tenths of a degree in six hours (at the default) is heat from something else.
 */
const risingHours = 6;
const fastHours = risingHours / 2;

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
    risingCelsiusPerHour: number(
      'C/h',
      0.05,
      5,
      'Rise over six hours that counts as still rising; twice that over three.',
    ),
  }),
  defaults: () => ({
    ...commonDefaults,
    onDelayMinutes: 10,
    offDelayMinutes: 60,
    limitCelsius: fireDangerCelsius,
    deadbandCelsius: 2,
    risingFromCelsius: 76,
    risingCelsiusPerHour: 0.1,
  }),
  source:
    'advice flips near 80 C: stacked-hay guidance 79.4 C, Surrey Fire and Rescue 70-80 C; the compost figure, and 76 C and rising, are our choice',
  latching: true,
  truth: (view, parameters, wasActive) =>
    isHighTruth(view.hotCertainty, view.hotCelsius !== null && isDanger(view, parameters, wasActive)),
  findings: (view, { limitCelsius }) => ({
    evidence: [...heatEvidence(view), ...hottestTrend(view)],
    measured: measuredHeat(view, limitCelsius),
  }),
  suppression: () => null,
  priority: () => priorityOf('now', 'danger', 'seen'),
  words: () => ({ what: 'FIRE DANGER', firstAction: fireDangerAction, cautions: fireDangerCautions }),
};

function hottestTrend(view: PileView): Evidence[] {
  if (view.hotCelsius === view.coreCelsius) return [];
  return entry('hottest place, trend of 6 h', view.hotTrendCelsiusPerHour(risingHours), 'C/h');
}

function isDanger(view: PileView, parameters: FireParameters, wasActive: boolean): boolean {
  const { limitCelsius, deadbandCelsius, risingFromCelsius, risingCelsiusPerHour } = parameters;
  const hot = view.hotCelsius!;
  // At the limit counts: the ladder says "80 C and above".
  if (hot === limitCelsius || isBeyondHigh(hot, limitCelsius, deadbandCelsius, wasActive)) return true;
  if (wasActive) return hot >= Math.min(limitCelsius, risingFromCelsius) - deadbandCelsius;
  if (hot <= risingFromCelsius) return false;
  return (
    isRising(view, risingHours, risingCelsiusPerHour) || isRising(view, fastHours, 2 * risingCelsiusPerHour)
  );
}

/** Of the hottest place, which need not be the core: fire begins where it is driest. */
function isRising(view: PileView, hours: number, celsiusPerHour: number): boolean {
  return (view.hotTrendCelsiusPerHour(hours) ?? 0) >= celsiusPerHour;
}

/** So hot, or rising where life should be failing, that opening could start flames; held until a person has looked. */
export const tooHotFireDanger = eraseParameters(condition);
