import { z } from 'zod';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { entry } from '../pileEvidence.ts';
import { priorityOf } from '../priorityOf.ts';
import { isHotPlace, type ProbeView, placesNow } from '../probeWindow.ts';

export interface SilentParameters extends CommonParameters {
  readonly missedReadings: number;
  readonly atLeastMinutes: number;
  readonly hotCelsius: number;
}

const condition: Condition<ProbeView, SilentParameters> = {
  id: 'probe-silent',
  name: 'Probe silent',
  subject: 'probe',
  parameters: z.object({
    ...commonShape,
    missedReadings: number('', 2, 100, 'Silent after this many times its usual gap between readings.'),
    atLeastMinutes: number('min', 5, 10080, 'But never before this long.'),
    hotCelsius: number('C', 20, 80, 'Last heard at or above this temperature it is pressing.'),
  }),
  defaults: () => ({
    ...commonDefaults,
    onDelayMinutes: 10,
    offDelayMinutes: 0,
    minimumMinutesBetweenTexts: 360,
    missedReadings: 3,
    atLeastMinutes: 60,
    hotCelsius: 40,
  }),
  source: 'common practice, no source',
  latching: false,
  truth: (view, parameters) => (isSilent(view, parameters) ? 'true' : 'false'),
  findings: (view, parameters) => ({
    evidence: [
      ...entry('silent for', quietMinutes(view), 'min'),
      ...entry('usual gap', view.expectedIntervalMs / 60_000, 'min'),
    ],
    measured: {
      label: 'silent',
      value: quietMinutes(view),
      limit: silentAfterMinutes(view, parameters),
      unit: 'min',
    },
  }),
  suppression: (view) => (view.yardIsSilent ? 'most probes of the yard are silent: one alarm says it' : null),
  priority: (view, { hotCelsius }) =>
    priorityOf('soon', wasHot(view, hotCelsius) ? 'batch' : 'quality', 'seen'),
  words: () => ({
    what: 'probe silent',
    firstAction: 'Check its battery, cable and signal; read the pile by hand meanwhile.',
    cautions: ['No readings does not mean the pile is cool.'],
  }),
};

/** Not heard for several of its usual gaps, counted from its placing when it has never been heard. */
export function isSilent(view: ProbeView, parameters: SilentParameters): boolean {
  return quietMinutes(view) > silentAfterMinutes(view, parameters);
}

/** Minutes of silence after which it counts as silent, by the default settings when none are given. */
export function silentLimitMinutes(view: ProbeView): number {
  return silentAfterMinutes(view, condition.defaults('static-cage'));
}

function silentAfterMinutes(view: ProbeView, parameters: SilentParameters): number {
  return Math.max((view.expectedIntervalMs / 60_000) * parameters.missedReadings, parameters.atLeastMinutes);
}

/** Minutes since it was heard or placed, whichever is later; 0 while it stands nowhere, for then nobody waits for it. */
function quietMinutes(view: ProbeView): number {
  const places = placesNow(view);
  if (places.length === 0) return 0;
  const placedMs = Math.min(...places.map((place) => place.fromMs));
  return Math.round((view.nowMs - Math.max(view.lastHeardMs, placedMs)) / 60_000);
}

function wasHot(view: ProbeView, hotCelsius: number): boolean {
  return placesNow(view).some((place) => isHotPlace(view, place, hotCelsius));
}

/** A placed probe has stopped sending. */
export const probeSilent = eraseParameters(condition);
