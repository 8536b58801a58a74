import { z } from 'zod';
import { type CommonParameters, type Condition, eraseParameters } from '../condition.ts';
import { commonDefaults, commonShape, number } from '../parameters.ts';
import { entry } from '../pileEvidence.ts';
import { priorityOf } from '../priorityOf.ts';
import { type ProbePlace, type ProbeView, placesNow } from '../probeWindow.ts';

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
  truth: (view) => (badPlaces(view).length > 0 ? 'true' : 'false'),
  findings: (view) => ({
    evidence: badPlaces(view).flatMap((place) => evidenceOf(view, place)),
    measured: null,
  }),
  suppression: () => null,
  priority: (view, { hotCelsius }) =>
    badPlaces(view).some((place) => isHot(view, place, hotCelsius))
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

/** Placed channels whose every reading since the last usable one has been bad. */
function badPlaces(view: ProbeView): ProbePlace[] {
  if (![...view.channels.values()].some((channel) => channel.badSinceMs !== null)) return [];
  return placesNow(view).filter((place) => (view.channels.get(place.channel)?.badSinceMs ?? null) !== null);
}

function isHot(view: ProbeView, place: ProbePlace, hotCelsius: number): boolean {
  const channel = view.channels.get(place.channel);
  return place.quantity === 'temperature' && channel !== undefined && channel.lastGood >= hotCelsius;
}

function evidenceOf(view: ProbeView, place: ProbePlace) {
  const channel = view.channels.get(place.channel)!;
  const lastGood = Number.isNaN(channel.lastGood) ? null : channel.lastGood;
  return [
    ...entry(`${place.position}: bad for`, (view.nowMs - channel.badSinceMs!) / 60_000, 'min'),
    { label: `${place.position}: reason`, value: channel.badReason ?? 'bad', unit: '' },
    ...entry(`${place.position}: last good value`, lastGood, place.quantity === 'temperature' ? 'C' : ''),
  ];
}

/** A placed channel sends nothing but bad values. */
export const probeBadValues = eraseParameters(condition);
