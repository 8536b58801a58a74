/** A typical value with the published range around it; `null` where the source prints none. */
export interface TypicalValue {
  readonly typical: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/** Whether the typical values were seen in a second-hand copy or are recalled (shown to people either way). */
export type FeedstockStatus = 'seen second-hand' | 'from memory (unconfirmed)';

export interface Feedstock {
  /** Stable identifier made from the name. */
  readonly id: string;
  readonly name: string;
  readonly nitrogenFractionDry: TypicalValue;
  readonly carbonToNitrogen: TypicalValue;
  readonly moistureFraction: TypicalValue;
  readonly bulkDensityKilogramsPerCubicMetre: TypicalValue;
  readonly status: FeedstockStatus;
  /** The pack's own "seen in" cell, e.g. `S2 (ranges MU)`. */
  readonly seenIn: string;
}

/** One printed cell: nothing, [typical] or [typical, low, high]; typical is null where only a range is printed. */
export type Cell = readonly [typical: number | null, low?: number, high?: number];

/** Makes a feedstock from a row as the table prints it (percent). */
export function feedstockRow(
  name: string,
  nitrogenPercent: Cell,
  carbonToNitrogen: Cell,
  moisturePercent: Cell,
  bulkDensity: Cell,
  seenIn: string,
): Feedstock {
  return {
    id: identifierOf(name),
    name,
    nitrogenFractionDry: typicalValue(nitrogenPercent, 100),
    carbonToNitrogen: typicalValue(carbonToNitrogen, 1),
    moistureFraction: typicalValue(moisturePercent, 100),
    bulkDensityKilogramsPerCubicMetre: typicalValue(bulkDensity, 1),
    status: statusOf(seenIn),
    seenIn,
  };
}

function typicalValue(
  [typical, low = null, high = null]: readonly (number | null | undefined)[],
  divisor: number,
) {
  const scale = (value: number | null) => (value === null ? null : value / divisor);
  return { typical: scale(typical ?? null), low: scale(low), high: scale(high) };
}

function statusOf(seenIn: string): FeedstockStatus {
  const recalled = seenIn.startsWith('MU') || seenIn.includes('typical MU');
  return recalled ? 'from memory (unconfirmed)' : 'seen second-hand';
}

function identifierOf(name: string): string {
  return name
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replace(/-$/, '');
}
