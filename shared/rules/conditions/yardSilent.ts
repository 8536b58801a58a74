import { z } from 'zod';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { priorityOf } from '../priorityOf.ts';
import type { YardView } from '../yardView.ts';

interface YardSilentParameters extends CommonParameters {
  readonly leastProbes: number;
  readonly share: number;
}

const condition: Condition<YardView, YardSilentParameters> = {
  id: 'probe-silent',
  name: 'Yard silent',
  subject: 'yard',
  parameters: z.object({
    ...commonShape,
    leastProbes: number('', 2, 1000, 'At least this many probes silent at once.'),
    share: number('fraction', 0.1, 1, 'And at least this share of all placed probes.'),
  }),
  defaults: () => ({
    ...commonDefaults,
    onDelayMinutes: 0,
    offDelayMinutes: 15,
    minimumMinutesBetweenTexts: 360,
    leastProbes: 3,
    share: 0.5,
  }),
  source: 'common practice, no source',
  latching: false,
  truth: (view, parameters) => (isYardSilent(view, parameters) ? 'true' : 'false'),
  findings: (view) => ({
    evidence: [
      { label: 'silent probes', value: view.probesSilent, unit: '' },
      { label: 'placed probes', value: view.probesPlaced, unit: '' },
    ],
    measured: null,
  }),
  suppression: () => null,
  priority: () => priorityOf('soon', 'batch', 'likely'),
  words: (view) => ({
    what: `${view.probesSilent} of ${view.probesPlaced} probes silent`,
    firstAction: 'Check power, network and broker first; read hot piles by hand.',
    cautions: ['No readings does not mean the piles are cool.'],
  }),
};

/** Many probes silent at once have one common cause. */
function isYardSilent(view: YardView, parameters: YardSilentParameters): boolean {
  const { probesSilent, probesPlaced } = view;
  return probesSilent >= parameters.leastProbes && probesSilent >= parameters.share * probesPlaced;
}

/** Most of a yard's probes silent at once: one alarm, not thirty. */
export const yardSilent = eraseParameters(condition);
