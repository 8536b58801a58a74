import type { SenmlRecord } from './record.ts';
import type { ResolvedRecord } from './resolvedRecord.ts';
import { firstAbsoluteSecond } from './resolveTime.ts';
import { defaultVersion } from './version.ts';

export interface PackOptions {
  /** Put once in front instead of in every name, e.g. `urn:dev:ow:28139bbb0b00001f_`; every name must start with it. */
  readonly baseName?: string;
}

/**
 * The records to send for a set of measurements, shorter than the measurements written out: base name once, a base time
 * only where the time changes, so that no time goes through an addition and comes back a bit different.
 * Throws RangeError for a time before 1978 (it would read as relative) or a name without the base name.
 */
export function packFromResolved(
  measurements: readonly ResolvedRecord[],
  options: PackOptions = {},
): SenmlRecord[] {
  const baseName = options.baseName ?? '';
  let lastSeconds: number | null = null;
  return measurements.map((measurement, index) => {
    const { timeSeconds, version } = measurement;
    if (timeSeconds < firstAbsoluteSecond)
      throw new RangeError(`time ${timeSeconds} s: allowed 1978 or later`);
    const hasNewTime = timeSeconds !== lastSeconds;
    lastSeconds = timeSeconds;
    return {
      ...(index === 0 && version !== defaultVersion && { bver: version }),
      ...(index === 0 && baseName !== '' && { bn: baseName }),
      ...(hasNewTime && { bt: timeSeconds }),
      n: nameAfter(baseName, measurement.name),
      ...ownFields(measurement),
    };
  });
}

function ownFields(measurement: ResolvedRecord): SenmlRecord {
  const { unit, sum, updateWithinSeconds } = measurement;
  return {
    ...(unit !== null && { u: unit }),
    ...valueField(measurement),
    ...(sum !== undefined && { s: sum }),
    ...(updateWithinSeconds !== undefined && { ut: updateWithinSeconds }),
  };
}

function valueField(measurement: ResolvedRecord): SenmlRecord {
  switch (measurement.kind) {
    case 'number':
      return { v: measurement.value };
    case 'text':
      return { vs: measurement.value };
    case 'boolean':
      return { vb: measurement.value };
    case 'data':
      return { vd: measurement.value };
    case 'sum':
      return {};
  }
}

function nameAfter(baseName: string, name: string): string {
  if (name.startsWith(baseName)) return name.slice(baseName.length);
  throw new RangeError(`name "${name}": allowed names that start with "${baseName}"`);
}
