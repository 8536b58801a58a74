import type { Evidence } from '../alarms/alarm.ts';
import type { Banded } from '../compost/forecast/banded.ts';
import { squeezeBands } from './byHand.ts';
import type { Measured } from './condition.ts';
import type { PileView } from './pileView.ts';

/** What a reader wants to see beside any verdict about a pile's heat. */
export function heatEvidence(view: PileView): Evidence[] {
  return [
    entry(coreLabel(view), view.coreCelsius, 'C'),
    ...(view.coreByHand ? [entry('read by hand, ago', hoursSince(view, view.coreTimeMs), 'h')] : []),
    hottestEvidence(view),
    entry('core trend, 6 h', view.trendCelsiusPerHour(6), 'C/h'),
    entry('air', view.airCelsius, 'C'),
    entry('highest core so far', view.peakCelsius, 'C'),
    moistureEvidence(view),
    entry('age', view.ageHours / 24, 'd'),
  ].flat();
}

function coreLabel(view: PileView): string {
  if (view.coreByHand) return 'core, read by hand';
  return view.coreCertainty === 'bound' ? 'core, at least' : 'core';
}

function hoursSince(view: PileView, timeMs: number | null): number | null {
  return timeMs === null ? null : Math.round((view.nowMs - timeMs) / 3_600_000);
}

/** The hottest place, where that is not simply the core's good reading. */
function hottestEvidence(view: PileView): Evidence[] {
  if (view.hotCelsius === view.coreCelsius) return [];
  return entry(view.hotCertainty === 'bound' ? 'hottest, may be' : 'hottest place', view.hotCelsius, 'C');
}

/** The hottest the pile may be against a limit, for a text; null when nothing is known. */
export function measuredHeat(view: PileView, limitCelsius: number): Measured | null {
  return view.hotCelsius === null
    ? null
    : { label: 'core', value: view.hotCelsius, limit: limitCelsius, unit: 'C' };
}

/** The core against a limit, for a text; null when it is not known. */
export function measuredCore(view: PileView, limitCelsius: number): Measured | null {
  return view.coreCelsius === null
    ? null
    : { label: 'core', value: view.coreCelsius, limit: limitCelsius, unit: 'C' };
}

/** An estimate with the band it lies in four times in five: "57 to 66". */
export function bandEvidence(label: string, { low, middle, high }: Banded, unit: '%'): Evidence {
  const percent = (fraction: number) => Math.round(fraction * 100);
  return { label, value: `${percent(middle)} (${percent(low)} to ${percent(high)})`, unit };
}

/** The driest moisture reading in percent; nothing when there is none. */
export function moistureEvidence(view: PileView): Evidence[] {
  const percent = view.moistureFraction === null ? null : view.moistureFraction * 100;
  if (view.moistureByHand) return squeezeEvidence(view.moistureFraction);
  return entry(view.moistureCertainty === 'bound' ? 'moisture, at most' : 'moisture', percent, '%');
}

function squeezeEvidence(fraction: number | null): Evidence[] {
  const band = squeezeBands.find(({ middle }) => middle === fraction);
  if (band === undefined) return [];
  const value = `${band.words}: about ${Math.round(band.low * 100)} to ${Math.round(band.high * 100)}`;
  return [{ label: 'moisture by squeeze test (common practice, no source)', value, unit: '%' }];
}

/** One number as evidence, rounded for reading; nothing when it is not known. */
export function entry(label: string, value: number | null, unit: string): Evidence[] {
  return value === null ? [] : [{ label, value: Math.round(value * 100) / 100, unit }];
}
