import { z } from 'zod';
import { isBeyondLow } from '../../alarms/deadband.ts';
import type { Truth } from '../../alarms/timing.ts';
import { mayBeTurned } from '../../yard/method.ts';
import { safeWords } from '../advice.ts';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { entry, heatEvidence, measuredCore } from '../pileEvidence.ts';
import type { PileView } from '../pileView.ts';
import { priorityOf } from '../priorityOf.ts';
import { shownRule } from '../sanitisationRecord.ts';
import { afterWork, justBuilt, warmAgain } from '../suppression.ts';

interface FellShortParameters extends CommonParameters {
  readonly limitCelsius: number;
  readonly deadbandCelsius: number;
  readonly giveUpDays: number;
  readonly graceHoursAfterWork: number;
}

const condition: Condition<PileView, FellShortParameters> = {
  id: 'too-cold-fell-short',
  name: 'Too cold: fell short',
  subject: 'pile',
  parameters: z.object({
    ...commonShape,
    limitCelsius: number('C', 40, 70, 'Heat the sanitisation record asks for.'),
    deadbandCelsius: number('C', 0.5, 10, 'Must rise this far above before it counts as back.'),
    giveUpDays: number(
      'd',
      1,
      60,
      'Days after it was last that hot in which heat can still be brought back.',
    ),
    graceHoursAfterWork: number(
      'h',
      0,
      96,
      'Hours after opening, turning or watering in which a fall is expected.',
    ),
  }),
  defaults: (method) => ({
    ...commonDefaults,
    enabled: shownRule(method) !== null,
    onDelayMinutes: 1440,
    // A turn warms it for a day or so and it falls again: one trouble, one text.
    offDelayMinutes: 2880,
    minimumMinutesBetweenTexts: 30_240,
    limitCelsius: 55,
    deadbandCelsius: 2,
    giveUpDays: 14,
    graceHoursAfterWork: 48,
  }),
  source:
    '55 C and its times: 40 CFR Part 503 Appendix B; recovery 0.5-2 days after a turn: synthesis, unconfirmed; a day below it, 14 days: common practice, no source',
  latching: false,
  truth: fellShort,
  findings: (view, { limitCelsius }) => ({
    evidence: [
      ...heatEvidence(view),
      ...entry('sanitisation record', (view.sanitisation?.progress ?? 0) * 100, '%'),
      ...(view.sanitisation?.missing ?? []).map((value) => ({ label: 'missing', value, unit: '' })),
    ],
    measured: measuredCore(view, limitCelsius),
  }),
  suppression: (view, { graceHoursAfterWork, limitCelsius }) =>
    justBuilt(view) ??
    afterWork(view, graceHoursAfterWork) ??
    warmAgain(view, limitCelsius) ??
    (view.isActive('stalled') ? 'that it has stalled says it already' : null),
  priority: () => priorityOf('later', 'batch', 'seen'),
  words: (view) =>
    safeWords(view, {
      what: 'cooled too early',
      firstAction: mayBeTurned(view.pile.method)
        ? 'Squeeze a handful: if dry, wet while turning; if wet, turn in dry stuff.'
        : 'Squeeze a handful: if dry, water slowly. Cover it against cold.',
      cautions: [
        'Until the record is complete treat it as raw: gloves, mask, wash hands.',
        'Do not add nitrogen before the moisture is known.',
      ],
    }),
};

/** Was at temperature, is no more, and the record is not complete. The record is judged last: it costs the most. */
function fellShort(view: PileView, parameters: FellShortParameters, wasActive: boolean): Truth {
  if (view.lastAt55Ms === null) return 'false';
  if (view.nowMs - view.lastAt55Ms > parameters.giveUpDays * 86_400_000) return 'false';
  if (view.coreCelsius === null) return 'unknown';
  const isBelow = isBeyondLow(
    view.coreCelsius,
    parameters.limitCelsius,
    parameters.deadbandCelsius,
    wasActive,
  );
  if (!isBelow) return 'false';
  if (view.coreCertainty !== 'measured') return 'unknown';
  return view.sanitisation?.recordAtMs === null ? 'true' : 'false';
}

/** Dropped below sanitising heat before the record was complete. */
export const tooColdFellShort = eraseParameters(condition);
