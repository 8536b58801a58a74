import { useState } from 'preact/hooks';
import { locale } from '../../common/words.ts';
import { Field } from '../Form.tsx';
import { text } from './words.ts';

export interface YardValues {
  readonly name: string;
  readonly timeZone: string;
  readonly temperatureUnit: string;
  readonly altitudeMetres: number;
}

/** The fields of a yard as the API wants them. */
export function yardOf(fields: Readonly<Record<string, string>>): YardValues {
  const { yardName = '', timeZone = '', temperatureUnit = 'C', altitudeMetres } = fields;
  return { name: yardName, timeZone, temperatureUnit, altitudeMetres: Number(altitudeMetres || 0) };
}

interface YardFieldsProps {
  readonly value: YardValues;
  readonly wrong: (field: 'name' | 'timeZone' | 'altitudeMetres') => string | null;
}

const zones: readonly string[] = 'supportedValuesOf' in Intl ? Intl.supportedValuesOf('timeZone') : [];

/** What is asked about a yard, at the first start and later. */
export function YardFields({ value, wrong }: YardFieldsProps) {
  const [zone, setZone] = useState(value.timeZone);
  const clock = clockIn(zone);
  return (
    <>
      <Field label={text.yardName} name="yardName" value={value.name} error={wrong('name')} required />
      <Field
        label={text.zone}
        name="timeZone"
        value={value.timeZone}
        list="time-zones"
        hint={clock === null ? text.zoneWrong : text.zoneHint(clock)}
        error={wrong('timeZone')}
        onInput={(event) => setZone((event.currentTarget as HTMLInputElement).value)}
        required
      />
      <datalist id="time-zones">
        {zones.map((name) => (
          <option key={name} value={name} />
        ))}
      </datalist>
      <Field
        label={text.unit}
        name="temperatureUnit"
        value={value.temperatureUnit}
        choices={[
          ['C', text.celsius],
          ['F', text.fahrenheit],
        ]}
      />
      <Field
        label={text.altitude}
        name="altitudeMetres"
        type="number"
        step="any"
        value={String(value.altitudeMetres)}
        hint={text.altitudeHint}
        error={wrong('altitudeMetres')}
      />
    </>
  );
}

/** What a clock in the zone shows; null when there is no such zone. */
function clockIn(timeZone: string): string | null {
  try {
    return new Intl.DateTimeFormat(locale, { timeZone, hour: '2-digit', minute: '2-digit' }).format();
  } catch {
    return null;
  }
}
