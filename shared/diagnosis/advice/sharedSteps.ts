import type { AdviceStep } from './step.ts';

/** Before anything is changed on a guess. */
export const squeezeFirst: AdviceStep = {
  text: 'Squeeze a handful from inside before anything is added or watered: a dry pile, a sodden one and a finished one all look alike. Log the score.',
  short: 'Squeeze a handful from inside first; log it 1 to 5.',
  deeds: ['handful'],
  moisture: ['unknown'],
  source: 'house plan; The Composting Handbook: cooling alone proves nothing',
};

/** After anything was changed. */
export const readAgain: AdviceStep = {
  text: 'Read it again after two days: a pile that answers has done so by then. Log what was done, so that the answer counts.',
  deeds: [],
  source: 'dips recover in 0.5-2 days (synthesis, unconfirmed)',
};
