import { z } from 'zod';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { entry } from '../pileEvidence.ts';
import { priorityOf } from '../priorityOf.ts';
import type { YardView } from '../yardView.ts';

interface StepParameters extends CommonParameters {
  readonly leastSeconds: number;
  readonly shownHours: number;
}

const condition: Condition<YardView, StepParameters> = {
  id: 'service-clock-step',
  name: 'Clock step',
  subject: 'yard',
  parameters: z.object({
    ...commonShape,
    leastSeconds: number('s', 5, 86_400, 'Smaller jumps are ordinary corrections.'),
    shownHours: number('h', 1, 168, 'How long after the jump it is shown.'),
  }),
  defaults: () => ({
    ...commonDefaults,
    onDelayMinutes: 0,
    offDelayMinutes: 0,
    minimumMinutesBetweenTexts: 1440,
    leastSeconds: 120,
    shownHours: 24,
  }),
  source: 'common practice, no source',
  latching: false,
  truth: (view, { leastSeconds, shownHours }) => {
    const step = view.services.clockStep;
    if (step === null || Math.abs(step.stepMs) < leastSeconds * 1000) return 'false';
    return view.nowMs - step.atMs < shownHours * 3_600_000 ? 'true' : 'false';
  },
  findings: ({ services }) => ({
    evidence: entry('clock moved by', (services.clockStep?.stepMs ?? 0) / 60_000, 'min'),
    measured: null,
  }),
  suppression: () => null,
  priority: () => priorityOf('soon', 'quality', 'seen'),
  words: () => ({
    what: 'clock of the computer jumped',
    firstAction: 'Check its time and time service; look at readings of that time.',
    cautions: ['Readings taken meanwhile may stand at the wrong time.'],
  }),
};

/** The computer's clock was set, so times around it may be wrong. */
export const serviceClockStep = eraseParameters(condition);
