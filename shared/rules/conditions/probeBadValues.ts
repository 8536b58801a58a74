import { z } from 'zod';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { entry } from '../pileEvidence.ts';
import { priorityOf } from '../priorityOf.ts';
import { isHotPlace, type ProbePlace, type ProbeView, placesInDoubt, placesNow } from '../probeWindow.ts';

interface BadValuesParameters extends CommonParameters {
  readonly hotCelsius: number;
}

const condition: Condition<ProbeView, BadValuesParameters> = {
  id: 'probe-bad-values',
  name: 'Probe sends bad values',
  subject: 'probe',
  parameters: z.object({
    ...commonShape,
    hotCelsius: number('C', 20, 80, 'Lost at or above this core temperature it is pressing.'),
  }),
  defaults: () => ({
    ...commonDefaults,
    onDelayMinutes: 30,
    offDelayMinutes: 30,
    minimumMinutesBetweenTexts: 360,
    hotCelsius: 40,
  }),
  source: 'common practice, no source',
  latching: false,
  truth: (view, { hotCelsius }) => (badPlaces(view, hotCelsius).length > 0 ? 'true' : 'false'),
  findings: (view, { hotCelsius }) => ({
    evidence: badPlaces(view, hotCelsius).flatMap((place) => evidenceOf(view, place)),
    measured: null,
  }),
  suppression: () => null,
  priority: (view, { hotCelsius }) =>
    badPlaces(view, hotCelsius).some((place) => isHotPlace(view, place, hotCelsius))
      ? priorityOf('soon', 'batch', 'seen')
      : priorityOf('later', 'quality', 'seen'),
  words: () => ({
    what: 'probe sends bad values',
    firstAction: 'Read the pile by hand now, then check plug, cable, probe.',
    cautions: [
      'The last good reading was real: do not take the pile for cool.',
      'Metal stems above 60 C burn.',
    ],
  }),
};

/**
 * Placed channels whose every reading since the last usable one has been bad, and hot ones that move faster than a pile
 * can: such a reading is kept from the pile's own alarms, so somebody must look. A wrong clock has its own alarm.
 */
function badPlaces(view: ProbeView, hotCelsius: number): ProbePlace[] {
  const jumping = placesInDoubt(view, ['impossible-rate', 'outlier']).filter((place) =>
    isHotPlace(view, place, hotCelsius),
  );
  if (![...view.channels.values()].some(isBad)) return jumping;
  return placesNow(view).filter((place) => {
    const channel = view.channels.get(place.channel);
    return jumping.includes(place) || (channel !== undefined && isBad(channel));
  });
}

function isBad({ badSinceMs, badReason }: { badSinceMs: number | null; badReason: string | null }): boolean {
  return badSinceMs !== null && badReason !== 'future-time';
}

function evidenceOf(view: ProbeView, place: ProbePlace) {
  const channel = view.channels.get(place.channel)!;
  const sinceMs = channel.badSinceMs ?? channel.doubtSinceMs!;
  const lastGood = Number.isNaN(channel.lastGood) ? null : channel.lastGood;
  const unit = place.quantity === 'temperature' ? 'C' : '';
  return [
    ...entry(`${place.position}: bad for`, (view.nowMs - sinceMs) / 60_000, 'min'),
    {
      label: `${place.position}: reason`,
      value: channel.badReason ?? channel.doubtReason ?? 'bad',
      unit: '',
    },
    ...entry(`${place.position}: last good value`, lastGood, unit),
    ...entry(
      `${place.position}: doubtful value`,
      channel.doubtReason === null ? null : channel.doubtful,
      unit,
    ),
  ];
}

/** A placed channel sends nothing but bad values, or a hot one values no pile can make. */
export const probeBadValues = eraseParameters(condition);
