import type { TemperatureBand } from './ruleSet.ts';
import type { ZoneRecord } from './zones.ts';

/** A stretch in which the pile was watched without a hole and every moment was inside the band. */
export interface Stretch {
  readonly fromMs: number;
  readonly toMs: number;
  readonly minimumCelsius: number;
  /** Time inside the stretch where at least one zone was bridged over missing samples. */
  readonly bridgedMs: number;
  /** True when nothing but missing data lies between this stretch and the one before. */
  readonly followsHole: boolean;
  /** Rows of the zone record, first included and last excluded. */
  readonly firstRow: number;
  readonly endRow: number;
}

export interface StretchOptions {
  readonly band: TemperatureBand;
  /** Kept back from both ends of the band: zero for the plain total, the probe's tolerance for the guarded one. */
  readonly guardCelsius: number;
  /** Nothing before this counts, e.g. since fresh material was added. */
  readonly sinceMs: number;
}

/** True when the coolest and the hottest both lie in the band with the guard kept back. */
export function isInBand(
  lowest: number,
  highest: number,
  band: TemperatureBand,
  guardCelsius: number,
): boolean {
  const low = lowest - guardCelsius;
  const warmEnough = band.lowerIncluded ? low >= band.lowerCelsius : low > band.lowerCelsius;
  return warmEnough && (band.upperCelsius === null || highest + guardCelsius <= band.upperCelsius);
}

/** Cuts the record into stretches inside the band, in time order. */
export function findStretches(record: ZoneRecord, options: StretchOptions): Stretch[] {
  const found: Stretch[] = [];
  let open: OpenStretch | null = null;
  let onlyHoleSinceLast = false;
  for (let row = 0; row < record.count; row++) {
    const toMs = record.toMs[row]!;
    if (toMs <= options.sinceMs) continue;
    const fromMs = Math.max(record.fromMs[row]!, options.sinceMs);
    if (open !== null && fromMs > open.toMs) {
      found.push(closed(open, row));
      open = null;
      onlyHoleSinceLast = true;
    }
    if (
      !isInBand(record.lowestCelsius[row]!, record.highestCelsius[row]!, options.band, options.guardCelsius)
    ) {
      if (open !== null) found.push(closed(open, row));
      open = null;
      onlyHoleSinceLast = false;
      continue;
    }
    open ??= opened(fromMs, row, onlyHoleSinceLast);
    open.toMs = toMs;
    open.minimumCelsius = Math.min(open.minimumCelsius, record.lowestCelsius[row]!);
    if (record.bridged[row] === 1) open.bridgedMs += toMs - fromMs;
  }
  if (open !== null) found.push(closed(open, record.count));
  return found;
}

/** Stretches inside a band, with a guard kept back; remembers what it found, because many rules share a band. */
export type StretchFinder = (band: TemperatureBand, guardCelsius: number) => readonly Stretch[];

/** A finder over one record, in which nothing before `sinceMs` counts. */
export function stretchFinder(record: ZoneRecord, sinceMs: number): StretchFinder {
  const found = new Map<string, Stretch[]>();
  return (band, guardCelsius) => {
    const key = [band.lowerCelsius, band.lowerIncluded, band.upperCelsius, guardCelsius].join();
    const stretches = found.get(key) ?? findStretches(record, { band, guardCelsius, sinceMs });
    found.set(key, stretches);
    return stretches;
  };
}

type OpenStretch = { -readonly [Key in keyof Omit<Stretch, 'endRow'>]: Stretch[Key] };

function opened(fromMs: number, firstRow: number, followsHole: boolean): OpenStretch {
  const empty = { minimumCelsius: Number.POSITIVE_INFINITY, bridgedMs: 0 };
  return { fromMs, toMs: fromMs, ...empty, followsHole, firstRow };
}

function closed(open: OpenStretch, endRow: number): Stretch {
  return { ...open, endRow };
}

/** Time of all stretches together. */
export function creditedMs(stretches: readonly Stretch[]): number {
  return stretches.reduce((sum, stretch) => sum + stretch.toMs - stretch.fromMs, 0);
}

/** When the credited time of the stretches first reaches `neededMs`; null when it never does. */
export function whenCreditedReaches(stretches: readonly Stretch[], neededMs: number): number | null {
  let before = 0;
  for (const stretch of stretches) {
    const length = stretch.toMs - stretch.fromMs;
    if (before + length >= neededMs) return stretch.fromMs + (neededMs - before);
    before += length;
  }
  return null;
}
