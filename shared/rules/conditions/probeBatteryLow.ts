import { z } from 'zod';
import { isBeyondLow } from '../../alarms/deadband.ts';
import type { Truth } from '../../alarms/timing.ts';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { entry } from '../pileEvidence.ts';
import { priorityOf } from '../priorityOf.ts';
import { type ProbeView, placesNow } from '../probeWindow.ts';

interface BatteryParameters extends CommonParameters {
  readonly limitFraction: number;
  readonly limitVolts: number;
  readonly pressingShare: number;
}

/** Must come back this far before it counts as charged or changed (our choice). */
const deadbandFraction = 0.1;
const deadbandVolts = 0.1;

const condition: Condition<ProbeView, BatteryParameters> = {
  id: 'probe-battery-low',
  name: 'Probe battery low',
  subject: 'probe',
  parameters: z.object({
    ...commonShape,
    limitFraction: number(
      'fraction',
      0.02,
      0.9,
      'Charge below which it is low, where the probe sends a share.',
    ),
    limitVolts: number('V', 0.8, 24, 'Voltage below which it is low, where the probe sends volts.'),
    pressingShare: number('fraction', 0.1, 1, 'Below this share of the limit it may fail any day.'),
  }),
  defaults: () => ({
    ...commonDefaults,
    onDelayMinutes: 120,
    offDelayMinutes: 120,
    minimumMinutesBetweenTexts: 4320,
    limitFraction: 0.2,
    limitVolts: 3.3,
    pressingShare: 0.5,
  }),
  source: 'common practice, no source; 3.3 V suits one lithium cell',
  latching: false,
  truth: batteryLow,
  findings: (view, parameters) => ({ evidence: evidenceOf(view, parameters), measured: null }),
  suppression: () => null,
  priority: (view, { limitFraction, pressingShare }) => {
    const battery = batteryOf(view);
    const isPressing = battery?.unit === 'fraction' && battery.value < limitFraction * pressingShare;
    return priorityOf(isPressing ? 'soon' : 'later', 'quality', 'seen');
  },
  words: () => ({
    what: 'probe battery low',
    firstAction: 'Charge or change its battery within days; log it.',
    cautions: ['When it dies the pile is not watched: no readings does not mean cool.'],
  }),
};

interface Battery {
  readonly value: number;
  readonly unit: 'fraction' | 'V';
}

/** By its placement; else by its name, because a battery stands nowhere and need not be placed. */
function batteryOf(view: ProbeView): Battery | null {
  const place = placesNow(view).find(({ quantity }) => quantity === 'battery' || quantity === 'voltage');
  for (const [name, { lastGood }] of view.channels) {
    if (Number.isNaN(lastGood)) continue;
    if (place?.channel === name)
      return { value: lastGood, unit: place.quantity === 'battery' ? 'fraction' : 'V' };
    // A share is at most 1, and no cell in use is at 1 V or less.
    if (place === undefined && name.endsWith('battery'))
      return { value: lastGood, unit: lastGood <= 1 ? 'fraction' : 'V' };
  }
  return null;
}

function batteryLow(view: ProbeView, parameters: BatteryParameters, wasActive: boolean): Truth {
  const battery = batteryOf(view);
  if (battery === null) return 'unknown';
  const isLow =
    battery.unit === 'fraction'
      ? isBeyondLow(battery.value, parameters.limitFraction, deadbandFraction, wasActive)
      : isBeyondLow(battery.value, parameters.limitVolts, deadbandVolts, wasActive);
  return isLow ? 'true' : 'false';
}

function evidenceOf(view: ProbeView, { limitFraction, limitVolts }: BatteryParameters) {
  const battery = batteryOf(view);
  if (battery === null) return [];
  return battery.unit === 'fraction'
    ? [...entry('battery', battery.value * 100, '%'), ...entry('limit', limitFraction * 100, '%')]
    : [...entry('battery', battery.value, 'V'), ...entry('limit', limitVolts, 'V')];
}

/** The probe will soon stop sending. */
export const probeBatteryLow = eraseParameters(condition);
