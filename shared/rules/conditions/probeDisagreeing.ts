import { z } from 'zod';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { priorityOf } from '../priorityOf.ts';
import { doubtEvidence } from '../probeEvidence.ts';
import { isHotPlace, type ProbeView, placesInDoubt } from '../probeWindow.ts';

interface DisagreeingParameters extends CommonParameters {
  readonly hotCelsius: number;
}

const condition: Condition<ProbeView, DisagreeingParameters> = {
  id: 'probe-disagreeing',
  name: 'Probe disagrees',
  subject: 'probe',
  parameters: z.object({
    ...commonShape,
    hotCelsius: number('C', 20, 80, 'Where either value is at or above this it is pressing.'),
  }),
  defaults: () => ({
    ...commonDefaults,
    onDelayMinutes: 30,
    offDelayMinutes: 60,
    minimumMinutesBetweenTexts: 1440,
    hotCelsius: 40,
  }),
  source:
    '3 C or a tenth of moisture between two sensors at one spot, three times running: common practice, no source',
  latching: false,
  truth: (view) => (placesInDoubt(view, ['disagrees-with-pair']).length > 0 ? 'true' : 'false'),
  findings: (view) => ({ evidence: doubtEvidence(view, ['disagrees-with-pair']), measured: null }),
  suppression: () => null,
  priority: (view, { hotCelsius }) => {
    const places = placesInDoubt(view, ['disagrees-with-pair']);
    const isHot = places.some((place) => isHotPlace(view, place, hotCelsius));
    return isHot ? priorityOf('soon', 'batch', 'seen') : priorityOf('later', 'quality', 'seen');
  },
  words: () => ({
    what: 'two probes disagree',
    firstAction: 'Read that spot by hand; believe the hotter one until you know.',
    cautions: ['Neither is used for the pile until one is put right.', 'Metal stems above 60 C burn.'],
  }),
};

/** A placed channel says something else than its pair at the very same spot. */
export const probeDisagreeing = eraseParameters(condition);
