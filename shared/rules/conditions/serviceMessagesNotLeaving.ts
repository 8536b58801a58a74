import { z } from 'zod';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { priorityOf } from '../priorityOf.ts';
import { truthOfKnown } from '../truth.ts';
import type { YardView } from '../yardView.ts';

interface WaitingParameters extends CommonParameters {
  readonly waitingMinutes: number;
}

const condition: Condition<YardView, WaitingParameters> = {
  id: 'service-messages-not-leaving',
  name: 'Messages not leaving',
  subject: 'yard',
  parameters: z.object({
    ...commonShape,
    waitingMinutes: number('min', 2, 1440, 'A message that could have left has waited this long.'),
  }),
  defaults: () => ({
    ...commonDefaults,
    onDelayMinutes: 0,
    offDelayMinutes: 5,
    minimumMinutesBetweenTexts: 720,
    waitingMinutes: 15,
  }),
  source: 'common practice, no source',
  latching: false,
  truth: ({ services }, { waitingMinutes }) =>
    truthOfKnown(services.messageWaitedMs, (waitedMs) => waitedMs > waitingMinutes * 60_000),
  findings: (view, { waitingMinutes }) => ({
    evidence: [{ label: 'oldest waits', value: Math.round(waitedMinutes(view)), unit: 'min' }],
    measured: { label: 'waiting', value: waitedMinutes(view), limit: waitingMinutes, unit: 'min' },
  }),
  suppression: () => null,
  priority: () => priorityOf('now', 'batch', 'seen'),
  words: () => ({
    what: 'texts are not leaving',
    firstAction: 'Watch the wall; check gateway or modem, its credit and network.',
    cautions: ['Until texts leave again nobody is told: let somebody watch the screen.'],
  }),
};

function waitedMinutes({ services }: YardView): number {
  return (services.messageWaitedMs ?? 0) / 60_000;
}

/** People are not being told. */
export const serviceMessagesNotLeaving = eraseParameters(condition);
