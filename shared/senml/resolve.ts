import type { SenmlRecord } from './record.ts';
import type { ResolvedRecord, ResolvedValue } from './resolvedRecord.ts';
import { resolveTime } from './resolveTime.ts';
import { SenmlError, type SenmlErrorCode, shown } from './senmlError.ts';
import { isSenmlName } from './senmlName.ts';
import { secondaryUnits, toPrimaryUnit } from './units.ts';
import {
  defaultVersion,
  hasFeature,
  isReadableVersion,
  ownFeatures,
  secondaryUnitsFeature,
} from './version.ts';

export interface ResolveOptions {
  /** What relative times count from: when the pack arrived. */
  readonly nowMs: number;
  /** RFC 9100 feature codes to understand; our own by default. */
  readonly understoodFeatures?: readonly number[];
}

type BaseFields = Pick<SenmlRecord, 'bver' | 'bn' | 'bt' | 'bu' | 'bv' | 'bs'>;

/**
 * The measurements of a pack, each complete in itself and all in time order (RFC 8428 sections 4.1 to 4.6, RFC 9100,
 * RFC 8798). Records that hold base fields only yield none. Values in secondary units come out in the primary unit.
 * Throws SenmlError naming record, field, value and what is allowed.
 */
export function resolve(records: readonly SenmlRecord[], options: ResolveOptions): ResolvedRecord[] {
  const understood = options.understoodFeatures ?? ownFeatures;
  let base: BaseFields = {};
  const resolved: ResolvedRecord[] = [];
  records.forEach((record, index) => {
    const versionInForce = resolved.length === 0 ? null : (base.bver ?? defaultVersion);
    checkVersion(record.bver, versionInForce, index, understood);
    base = withBaseFieldsOf(record, base);
    if (hasOwnFields(record)) resolved.push(resolveRecord(record, base, options.nowMs, index));
  });
  // The sort is stable: records of one instant keep the order they were sent in.
  return resolved.sort((first, second) => first.timeSeconds - second.timeSeconds);
}

/** Each base field stays in force until a record carries the same one again; the others are left alone. */
function withBaseFieldsOf(record: SenmlRecord, base: BaseFields): BaseFields {
  const { bver, bn, bt, bu, bv, bs } = record;
  return {
    ...base,
    ...(bver !== undefined && { bver }),
    ...(bn !== undefined && { bn }),
    ...(bt !== undefined && { bt }),
    ...(bu !== undefined && { bu }),
    ...(bv !== undefined && { bv }),
    ...(bs !== undefined && { bs }),
  };
}

/** All measurements of a pack share one version: once one is out (`inForce` not null) it cannot change. */
function checkVersion(
  bver: number | undefined,
  inForce: number | null,
  index: number,
  understood: readonly number[],
): void {
  if (bver === undefined) return;
  if (!isReadableVersion(bver, understood)) {
    const features =
      understood.length === 0 ? 'no further feature' : `of further features ${understood.join(', ')}`;
    throw fault('version', index, 'bver', bver, `10 by the bitmap of RFC 9100, ${features}; or 1 to 9`);
  }
  if (inForce !== null && bver !== inForce)
    throw fault('version', index, 'bver', bver, `${inForce} as before`);
}

function hasOwnFields({ n, u, v, vs, vb, vd, s, t, ut }: SenmlRecord): boolean {
  return [n, u, v, vs, vb, vd, s, t, ut].some((field) => field !== undefined);
}

function resolveRecord(record: SenmlRecord, base: BaseFields, nowMs: number, index: number): ResolvedRecord {
  const version = base.bver ?? defaultVersion;
  const unit = unitOf(record.u ?? base.bu, version, index);
  const sum = sumOf(record, base, unit, index);
  const value = resolvedValueOf(record, base, unit, sum, index);
  return {
    name: nameOf(record, base, index),
    unit: unit === null ? null : toPrimaryUnit(0, unit).unit,
    ...resolveTime((base.bt ?? 0) + (record.t ?? 0), nowMs, index),
    ...value,
    ...(sum !== undefined && { sum }),
    ...(record.ut !== undefined && { updateWithinSeconds: record.ut }),
    version,
  };
}

function nameOf(record: SenmlRecord, base: BaseFields, index: number): string {
  const name = (base.bn ?? '') + (record.n ?? '');
  if (isSenmlName(name)) return name;
  const allowed = 'a letter or digit, then letters, digits and - : . / _ (in bn and n joined)';
  throw fault('name', index, 'n', name, allowed);
}

function unitOf(unit: string | undefined, version: number, index: number): string | null {
  if (unit === undefined) return null;
  if (secondaryUnits.has(unit) && !hasFeature(version, secondaryUnitsFeature)) {
    const { base } = secondaryUnits.get(unit)!;
    throw fault('unit', index, 'u', unit, `"${base}", or the secondary unit in a pack that says bver 26`);
  }
  return unit;
}

/** `bs` + `s`, each 0 when missing; no sum at all when both are. */
function sumOf(record: SenmlRecord, base: BaseFields, unit: string | null, index: number) {
  if (record.s === undefined && base.bs === undefined) return undefined;
  const sum = finite((base.bs ?? 0) + (record.s ?? 0), 's', index);
  if (unit === null) return sum;
  const offset = secondaryUnits.get(unit)?.offset ?? 0;
  // An offset would have to be multiplied by a time span the record does not give.
  if (offset !== 0) throw fault('unit', index, 'u', unit, 'a unit without an offset, where a sum is given');
  return toPrimaryUnit(sum, unit).value;
}

/** Exactly one of v, vs, vb, vd; none is allowed when the record itself has a sum (RFC 8428 section 4.2). */
function resolvedValueOf(
  record: SenmlRecord,
  base: BaseFields,
  unit: string | null,
  sum: number | undefined,
  index: number,
): ResolvedValue {
  const given = (['v', 'vs', 'vb', 'vd'] as const).filter((label) => record[label] !== undefined);
  if (given.length > 1) {
    throw fault('several-values', index, given[1]!, given.join(' and '), 'exactly one of v, vs, vb, vd');
  }
  if (record.v !== undefined) return numberOf((base.bv ?? 0) + record.v, unit, index);
  if (record.vs !== undefined) return { kind: 'text', value: record.vs };
  if (record.vb !== undefined) return { kind: 'boolean', value: record.vb };
  if (record.vd !== undefined) return { kind: 'data', value: record.vd };
  if (record.s !== undefined && sum !== undefined) return { kind: 'sum', value: sum };
  const allowed = 'one of v, vs, vb, vd, or a sum s';
  throw new SenmlError({ code: 'no-value', recordIndex: index, field: null, value: 'none of them', allowed });
}

function numberOf(sum: number, unit: string | null, index: number): ResolvedValue {
  const value = finite(sum, 'v', index);
  return { kind: 'number', value: unit === null ? value : toPrimaryUnit(value, unit).value };
}

function finite(value: number, field: string, index: number): number {
  if (Number.isFinite(value)) return value;
  throw fault('not-finite', index, field, value, 'a finite number after the base is added');
}

function fault(code: SenmlErrorCode, recordIndex: number, field: string, value: unknown, allowed: string) {
  return new SenmlError({ code, recordIndex, field, value: shown(value), allowed });
}
