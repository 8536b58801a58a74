/** Unit symbols of SenML that the reference pack confirms (RFC 8428 section 12.1, RFC 8798 section 2). Case matters. */
const confirmedUnits =
  'Cel K %RH %EL EL V A W J C W/m2 m m2 m3 m3/s l l/s g kg kg/m3 Pa S/m pH count lat lon 1/s dB dBW / % s m/s B';

/** More of the same registry, from memory (unconfirmed): accepted as names, nothing is computed from them. */
const unconfirmedUnits =
  'cd mol Hz rad sr N F Ohm S Wb T H lm lx Bq Gy Sv kat m/s2 cd/m2 bit bit/s Bspl 1/min VA NTU';

/** Units a plain pack may carry. The registry grows: a symbol missing here is not known to us, not "unregistered". */
export const primaryUnits: ReadonlySet<string> = new Set(`${confirmedUnits} ${unconfirmedUnits}`.split(' '));

/** Value in `base` = value x multiplier / divisor + offset. A whole divisor keeps 100 ms at exactly 0.1 s. */
export interface SecondaryUnit {
  readonly base: string;
  readonly multiplier: number;
  readonly divisor: number;
  readonly offset: number;
}

function secondary(base: string, multiplier: number, divisor = 1, offset = 0): SecondaryUnit {
  return { base, multiplier, divisor, offset };
}

/** Secondary units (RFC 8798 section 3, as in the reference pack); in a pack they need RFC 9100 feature 4, `bver` 26. */
export const secondaryUnits: ReadonlyMap<string, SecondaryUnit> = new Map([
  ['ms', secondary('s', 1, 1000)],
  ['min', secondary('s', 60)],
  ['h', secondary('s', 3600)],
  ['mV', secondary('V', 1, 1000)],
  ['mA', secondary('A', 1, 1000)],
  ['kW', secondary('W', 1000)],
  ['Wh', secondary('J', 3600)],
  ['kWh', secondary('J', 3_600_000)],
  ['Ah', secondary('C', 3600)],
  ['dBm', secondary('dBW', 1, 1, -30)],
  ['/100', secondary('/', 1, 100)],
  ['/1000', secondary('/', 1, 1000)],
  ['ppm', secondary('/', 1, 1_000_000)],
  ['hPa', secondary('Pa', 100)],
  ['mm', secondary('m', 1, 1000)],
  ['cm', secondary('m', 1, 100)],
  ['km', secondary('m', 1000)],
  ['mm/h', secondary('m/s', 1, 3_600_000)],
  ['km/h', secondary('m/s', 10, 36)],
  ['KiB', secondary('B', 1024)],
  ['GB', secondary('B', 1_000_000_000)],
]);

/** A value in its base unit, or the value unchanged when the unit is not a secondary one. */
export function toPrimaryUnit(value: number, unit: string): { value: number; unit: string } {
  const found = secondaryUnits.get(unit);
  if (found === undefined) return { value, unit };
  return { value: (value * found.multiplier) / found.divisor + found.offset, unit: found.base };
}
