import { z } from 'zod';
import { type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape } from '../parameters.ts';
import { entry } from '../pileEvidence.ts';
import { priorityOf } from '../priorityOf.ts';
import type { ProbeView } from '../probeWindow.ts';

const condition: Condition<ProbeView> = {
  id: 'probe-clock-wrong',
  name: 'Probe clock wrong',
  subject: 'probe',
  parameters: z.object(commonShape),
  defaults: () => ({
    ...commonDefaults,
    onDelayMinutes: 15,
    offDelayMinutes: 30,
    minimumMinutesBetweenTexts: 1440,
  }),
  source: 'more than ten minutes ahead of us: common practice, no source',
  latching: false,
  truth: (view) => (aheadMinutes(view) === null ? 'false' : 'true'),
  findings: (view) => ({ evidence: entry('clock ahead by', aheadMinutes(view), 'min'), measured: null }),
  suppression: () => null,
  priority: () => priorityOf('soon', 'quality', 'seen'),
  words: () => ({
    what: 'probe clock wrong',
    firstAction: 'Set its clock, or let it send times relative to now; read by hand.',
    cautions: ['Its readings are not used while its clock is wrong.'],
  }),
};

/** How far ahead the clock runs by the latest reading of any channel; null when the latest ones are in time. */
function aheadMinutes(view: ProbeView): number | null {
  for (const { badReason } of view.channels.values())
    if (badReason === 'future-time') return Math.round(view.clockAheadMs / 60_000);
  return null;
}

/** The probe sends times that have not come yet, so that none of its readings can be judged. */
export const probeClockWrong = eraseParameters(condition);
