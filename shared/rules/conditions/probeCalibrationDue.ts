import { z } from 'zod';
import { type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape } from '../parameters.ts';
import { priorityOf } from '../priorityOf.ts';
import { doubtEvidence } from '../probeEvidence.ts';
import { type ProbeView, placesInDoubt } from '../probeWindow.ts';

const condition: Condition<ProbeView> = {
  id: 'probe-calibration-due',
  name: 'Probe calibration due',
  subject: 'probe',
  parameters: z.object(commonShape),
  defaults: () => ({
    ...commonDefaults,
    onDelayMinutes: 60,
    offDelayMinutes: 0,
    minimumMinutesBetweenTexts: 10_080,
  }),
  source: 'the date a person gave with the last calibration; common practice, no source',
  latching: false,
  truth: (view) => (placesInDoubt(view, ['calibration-stale']).length > 0 ? 'true' : 'false'),
  findings: (view) => ({ evidence: doubtEvidence(view, ['calibration-stale']), measured: null }),
  suppression: () => null,
  priority: () => priorityOf('later', 'quality', 'seen'),
  words: () => ({
    what: 'probe calibration due',
    firstAction: 'Check it in ice water and against a good thermometer; enter it.',
    cautions: ['Until then it can still raise a heat alarm, but counts for nothing else.'],
  }),
};

/** A placed channel's calibration is past its date, so that its readings no longer count as good. */
export const probeCalibrationDue = eraseParameters(condition);
