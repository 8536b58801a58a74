import { z } from 'zod';
import type { Truth } from '../../alarms/timing.ts';
import { mayBeTurned, type PileMethod } from '../../yard/method.ts';
import { safeWords, steamCautions } from '../advice.ts';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { entry, heatEvidence } from '../pileEvidence.ts';
import type { PileView } from '../pileView.ts';
import { priorityOf } from '../priorityOf.ts';
import { shownRule } from '../sanitisationRecord.ts';

interface TooLongParameters extends CommonParameters {
  readonly budgetDays: number;
  readonly hotCelsius: number;
  readonly deadbandCelsius: number;
}

/** Days above 55 C a pile may have once its record is complete. */
const budgetDays: Readonly<Record<PileMethod, number>> = {
  'static-cage': 14,
  'hot-bin': 28,
  'turned-windrow': 60,
  'aerated-static-pile': 35,
  'worm-bed': 14,
  'curing-heap': 14,
  'leaf-heap': 14,
};

const condition: Condition<PileView, TooLongParameters> = {
  id: 'too-hot-too-long',
  name: 'Too hot: too long',
  subject: 'pile',
  parameters: z.object({
    ...commonShape,
    budgetDays: number('d', 1, 180, 'Days above 55 C it may have after its sanitisation record is complete.'),
    hotCelsius: number('C', 45, 65, 'Only while the core is still at least this hot.'),
    deadbandCelsius: number('C', 0.5, 10, 'Must fall this far below before it counts as back.'),
  }),
  defaults: (method) => ({
    ...commonDefaults,
    enabled: shownRule(method) !== null,
    onDelayMinutes: 360,
    offDelayMinutes: 360,
    minimumMinutesBetweenTexts: 2880,
    budgetDays: budgetDays[method],
    hotCelsius: 55,
    deadbandCelsius: 3,
  }),
  source:
    'common practice, no source: 60-71 C for ten weeks cost a static cage its fungi; most species are lost above 60 C (Strom 1985)',
  latching: false,
  truth: tooLong,
  findings: (view, parameters) => ({
    evidence: [
      ...heatEvidence(view),
      ...entry('above 55 C since the record', (hoursSinceRecord(view) ?? 0) / 24, 'd'),
      ...entry('budget', parameters.budgetDays, 'd'),
    ],
    measured: null,
  }),
  suppression: (view) =>
    view.isActive('too-hot-ceiling') || view.isActive('too-hot-fire-danger')
      ? 'a more pressing heat alarm says it already'
      : null,
  priority: (view) => priorityOf('later', view.pile.method === 'static-cage' ? 'batch' : 'quality', 'seen'),
  words: (view) =>
    safeWords(view, {
      what: 'hot for too long',
      firstAction: mayBeTurned(view.pile.method)
        ? 'Make it lower or spread it, wet while turning; feed no more.'
        : 'Do not turn it. Check the air channels are open, water it slowly.',
      cautions: ['Long heat kills the fungi and burns up nitrogen.', ...steamCautions],
    }),
};

/** Hours above 55 C since the record was complete; null while it is not. */
function hoursSinceRecord(view: PileView): number | null {
  const record = view.sanitisation;
  return record?.recordAtMs == null ? null : view.hoursAbove55 - record.hotHoursThen;
}

function tooLong(view: PileView, parameters: TooLongParameters, wasActive: boolean): Truth {
  const budgetHours = parameters.budgetDays * 24;
  // The record costs an hour's work to judge: first what is known for nothing.
  if (view.hoursAbove55 <= budgetHours) return 'false';
  const limit = parameters.hotCelsius - (wasActive ? parameters.deadbandCelsius : 0);
  if (view.coreCelsius === null) return 'unknown';
  if (view.coreCelsius < limit) return view.coreCertainty === 'measured' ? 'false' : 'unknown';
  return (hoursSinceRecord(view) ?? 0) > budgetHours ? 'true' : 'false';
}

/** Still hot long after its heat has done its work. */
export const tooHotTooLong = eraseParameters(condition);
