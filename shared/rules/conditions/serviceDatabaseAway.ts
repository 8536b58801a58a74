import { z } from 'zod';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape } from '../parameters.ts';
import { priorityOf } from '../priorityOf.ts';
import { truthOfKnown } from '../truth.ts';
import type { YardView } from '../yardView.ts';

const condition: Condition<YardView, CommonParameters> = {
  id: 'service-database-away',
  name: 'Database away',
  subject: 'yard',
  parameters: z.object(commonShape),
  defaults: () => ({
    ...commonDefaults,
    onDelayMinutes: 15,
    offDelayMinutes: 5,
    minimumMinutesBetweenTexts: 720,
  }),
  source: 'common practice, no source',
  latching: false,
  truth: ({ services }) => truthOfKnown(services.databaseReachable, (reachable) => !reachable),
  findings: () => ({ evidence: [{ label: 'database', value: 'does not answer', unit: '' }], measured: null }),
  suppression: () => null,
  priority: () => priorityOf('soon', 'quality', 'seen'),
  words: () => ({
    what: 'database away',
    firstAction: 'Start the database or its network; readings wait on the local disk.',
    cautions: ['Alarms go on from the local store as long as its disk has room.'],
  }),
};

/** A database cannot be reached; what is measured waits on the local disk. */
export const serviceDatabaseAway = eraseParameters(condition);
