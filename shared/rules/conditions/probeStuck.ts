import { z } from 'zod';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { priorityOf } from '../priorityOf.ts';
import { doubtEvidence } from '../probeEvidence.ts';
import { isHotPlace, type ProbeView, placesInDoubt } from '../probeWindow.ts';

interface StuckParameters extends CommonParameters {
  readonly hotCelsius: number;
}

const condition: Condition<ProbeView, StuckParameters> = {
  id: 'probe-stuck',
  name: 'Probe stuck',
  subject: 'probe',
  parameters: z.object({
    ...commonShape,
    hotCelsius: number('C', 20, 80, 'Stuck at or above this temperature it is pressing.'),
  }),
  defaults: () => ({
    ...commonDefaults,
    onDelayMinutes: 60,
    offDelayMinutes: 30,
    minimumMinutesBetweenTexts: 1440,
    hotCelsius: 40,
  }),
  source: 'no change for six hours while a neighbour moved 2 C: common practice, no source',
  latching: false,
  truth: (view) => (placesInDoubt(view, ['stuck']).length > 0 ? 'true' : 'false'),
  findings: (view) => ({ evidence: doubtEvidence(view, ['stuck']), measured: null }),
  suppression: () => null,
  priority: (view, { hotCelsius }) => {
    const isHot = placesInDoubt(view, ['stuck']).some((place) => isHotPlace(view, place, hotCelsius));
    return priorityOf(isHot ? 'soon' : 'later', 'quality', 'likely');
  },
  words: () => ({
    what: 'probe stuck at one value',
    firstAction: 'Compare it with a thermometer by hand; restart or swap the probe.',
    cautions: ['Until then do not trust this probe, warm or cool.', 'Metal stems above 60 C burn.'],
  }),
};

/** A placed channel has stood still for hours while others moved. */
export const probeStuck = eraseParameters(condition);
