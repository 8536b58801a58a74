import { primaryUnits, secondaryUnits, toPrimaryUnit } from '../senml/units.ts';
import type { Quantity } from '../yard/yard.ts';

/** A measured value in the unit we store: Celsius, fraction 0..1, volt; `other` keeps the SenML primary unit. */
export interface CanonicalValue {
  readonly ok: true;
  readonly quantity: Quantity;
  readonly value: number;
  /** Set when the value is legal but the sender has probably mistaken the unit; for a person to read. */
  readonly doubt: string | null;
}

export type CanonicalResult = CanonicalValue | { readonly ok: false; readonly problem: string };

const zeroCelsiusInKelvin = 273.15;

interface Rule {
  readonly quantity: Quantity;
  readonly convert: (value: number) => number;
}

const unchanged = (value: number): number => value;
const percent = (value: number): number => value / 100;

/** Units with a meaning of their own here. `/` is taken as moisture (no unit for water content exists in SenML). */
const rules: ReadonlyMap<string, Rule> = new Map([
  ['Cel', { quantity: 'temperature', convert: unchanged }],
  // Rounded to a billionth so that 300.15 K is 27 C and not 26.999999999999943.
  ['K', { quantity: 'temperature', convert: (value) => roundTo(value - zeroCelsiusInKelvin, 1e9) }],
  ['%RH', { quantity: 'relative-humidity', convert: percent }],
  ['%EL', { quantity: 'battery', convert: percent }],
  ['V', { quantity: 'voltage', convert: unchanged }],
  ['/', { quantity: 'moisture', convert: unchanged }],
  // Not percent: an old alias of "/" with values 0..1 (RFC 8428 section 12.1, RFC 8798 note 1).
  ['%', { quantity: 'moisture', convert: unchanged }],
]);

/**
 * Quantity and canonical value of a SenML value with its unit (primary or secondary, matched byte by byte). A ratio `/`
 * is reported as moisture; where a channel's set-up says it is something else, the set-up wins. Returns a problem, with
 * what is allowed, for a missing or unknown unit.
 */
export function canonicaliseSenmlValue(unit: string | null, value: number): CanonicalResult {
  if (unit === null) return { ok: false, problem: `no unit given: allowed ${usualUnits}` };
  if (!primaryUnits.has(unit) && !secondaryUnits.has(unit)) {
    return {
      ok: false,
      problem: `unit "${unit}": allowed ${usualUnits}, or another SenML unit; case matters`,
    };
  }
  const primary = toPrimaryUnit(value, unit);
  const rule = rules.get(primary.unit);
  if (rule === undefined) return { ok: true, quantity: 'other', value: primary.value, doubt: null };
  return {
    ok: true,
    quantity: rule.quantity,
    value: rule.convert(primary.value),
    doubt: doubtOf(unit, value),
  };
}

const usualUnits = 'Cel or K (temperature), / or /100 (moisture), %RH (air), %EL or V (battery)';

function doubtOf(unit: string, value: number): string | null {
  if (unit !== '%' || Math.abs(value) <= 1) return null;
  return `${value} % means ${value} times the whole in SenML; to send ${value} percent, send ${value / 100} with unit "/"`;
}

function roundTo(value: number, stepsPerUnit: number): number {
  return Math.round(value * stepsPerUnit) / stepsPerUnit;
}
