import { formatTemperature } from '../../units/temperature.ts';
import type { TemperatureUnit } from '../../yard/yard.ts';
import type { Part } from './outcome.ts';
import type { RulePath, TemperatureBand } from './ruleSet.ts';

/** A band in plain words, e.g. `at or above 55 C` or `between 55.0 C and 76.7 C`. */
export function bandWords(band: TemperatureBand, unit: TemperatureUnit): string {
  if (band.upperCelsius !== null) {
    const ends = [band.lowerCelsius, band.upperCelsius].map((end) =>
      formatTemperature(end, { unit, decimals: 1 }),
    );
    return `between ${ends[0]} and ${ends[1]}`;
  }
  return `${band.lowerIncluded ? 'at or above' : 'above'} ${formatTemperature(band.lowerCelsius, { unit })}`;
}

/** What is still missing on a path, one sentence a part, in plain words with units. */
export function missingWords(path: RulePath, parts: readonly Part[], unit: TemperatureUnit): string[] {
  return parts.filter((part) => !part.enough).map((part) => partWords(path, part, unit));
}

function partWords(path: RulePath, part: Part, unit: TemperatureUnit): string {
  const band = bandWords(path.band, unit);
  switch (part.name) {
    case 'hours':
      return hoursWords(path, part, band);
    case 'turnings':
      return `${turnings(part.need - part.have)} while the pile is at temperature${spacingWords(path)}.`;
    case 'turns-after-hold':
      return `${turnings(part.need - part.have)}, each after ${path.hours} h without a break ${band}.`;
    case 'hotter-hours':
      return hotterWords(path, part, unit);
    case 'average':
      return averageWords(part, unit);
  }
}

function hoursWords(path: RulePath, part: Part, band: string): string {
  const short = Math.max(0.1, Math.ceil((part.need - part.have) * 10 - 1e-6) / 10);
  const unbroken = path.kind === 'hold-before-turns' || path.continuity === 'consecutive';
  return `${short} h more ${band}${unbroken ? ', without a break' : ''} (${part.have.toFixed(1)} of ${part.need} h so far).`;
}

function hotterWords(path: RulePath, part: Part, unit: TemperatureUnit): string {
  const peak = path.kind === 'hold' ? path.peak : null;
  if (peak === null) return '';
  return `${(part.need - part.have).toFixed(1)} h more ${bandWords(peak.band, unit)} within the same ${path.hours} h.`;
}

function averageWords(part: Part, unit: TemperatureUnit): string {
  const [have, need] = [part.have, part.need].map((celsius) =>
    formatTemperature(celsius, { unit, decimals: 1 }),
  );
  if (part.have > part.need)
    return `The mean must stay above ${need} for the whole time; it is ${have} so far.`;
  return `A mean above ${need}; the best so far is ${have}.`;
}

function turnings(count: number): string {
  return count === 1 ? '1 more turning' : `${count} more turnings`;
}

function spacingWords(path: RulePath): string {
  const hours = path.kind === 'hold' ? (path.turnings?.minimumSpacingHours ?? 0) : 0;
  return hours === 0 ? '' : `, at least ${hours / 24} days apart`;
}
