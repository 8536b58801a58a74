import { z } from 'zod';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape } from '../parameters.ts';
import { priorityOf } from '../priorityOf.ts';
import { truthOfKnown } from '../truth.ts';
import type { YardView } from '../yardView.ts';

const condition: Condition<YardView, CommonParameters> = {
  id: 'service-broker-away',
  name: 'Broker away',
  subject: 'yard',
  parameters: z.object(commonShape),
  defaults: () => ({
    ...commonDefaults,
    onDelayMinutes: 5,
    offDelayMinutes: 5,
    minimumMinutesBetweenTexts: 360,
  }),
  source: 'common practice, no source',
  latching: false,
  truth: ({ services }) => truthOfKnown(services.brokerConnected, (connected) => !connected),
  findings: () => ({
    evidence: [{ label: 'connection to the MQTT broker', value: 'none', unit: '' }],
    measured: null,
  }),
  suppression: () => null,
  priority: () => priorityOf('soon', 'batch', 'seen'),
  words: () => ({
    what: 'no readings can come in',
    firstAction: 'Start the MQTT broker, check its network; read hot piles by hand.',
    cautions: ['No readings does not mean the piles are cool.'],
  }),
};

/** The broker probes send to cannot be reached. */
export const serviceBrokerAway = eraseParameters(condition);
