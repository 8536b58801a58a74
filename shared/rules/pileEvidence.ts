import type { Evidence } from '../alarms/alarm.ts';
import type { PileView } from './pileView.ts';

/** What a reader wants to see beside any verdict about a pile's heat. */
export function heatEvidence(view: PileView): Evidence[] {
  return [
    entry(view.coreCertainty === 'bound' ? 'core, at least' : 'core', view.coreCelsius, 'C'),
    entry('core trend, 6 h', view.trendCelsiusPerHour(6), 'C/h'),
    entry('air', view.airCelsius, 'C'),
    entry('highest core so far', view.peakCelsius, 'C'),
    moistureEvidence(view),
    entry('age', view.ageHours / 24, 'd'),
  ].flat();
}

/** The driest moisture reading in percent; nothing when there is none. */
export function moistureEvidence(view: PileView): Evidence[] {
  const percent = view.moistureFraction === null ? null : view.moistureFraction * 100;
  return entry(view.moistureCertainty === 'bound' ? 'moisture, at most' : 'moisture', percent, '%');
}

/** One number as evidence, rounded for reading; nothing when it is not known. */
export function entry(label: string, value: number | null, unit: string): Evidence[] {
  return value === null ? [] : [{ label, value: Math.round(value * 100) / 100, unit }];
}
