/**
 * The planner: from what a grower has in the yard to a pile that heats enough and not too much. This folder: what a
 * person typed (`plan`, here, and `planSchema` for plans read back), one line of it as an ingredient (`lineIngredient`,
 * `figures`, `figureStatus`), amounts in buckets and barrows (`amounts`), what the mix comes to with its ranges
 * (`mixFigures`, `mixRanges`, `gauges`), amounts worked out (`findAmounts`, `whatWouldHelp`), the container and its air
 * (`container`, `airLayout`, `boxLayout`), the course to expect (`pilePlan`, `predictCourse`), composting a hot
 * ingredient first (`compostFirst`) and the sheet to build from (`buildSheet`, `recipeNote`).
 */

/** What a person may measure or know better than the table; `null` means "take the table's". */
export interface OwnFigures {
  /** Wet basis. */
  readonly moistureFraction: number | null;
  readonly nitrogenFractionDry: number | null;
  readonly carbonToNitrogen: number | null;
  readonly ashFractionDry: number | null;
  /** Loose, kg/m3. */
  readonly bulkDensity: number | null;
}

export const figureNames = [
  'moistureFraction',
  'nitrogenFractionDry',
  'carbonToNitrogen',
  'ashFractionDry',
  'bulkDensity',
] as const satisfies readonly (keyof OwnFigures)[];
export type FigureName = (typeof figureNames)[number];

export const noFigures: OwnFigures = {
  moistureFraction: null,
  nitrogenFractionDry: null,
  carbonToNitrogen: null,
  ashFractionDry: null,
  bulkDensity: null,
};

export const amountUnits = ['kilogram', 'litre', 'bucket', 'barrow'] as const;
export type AmountUnit = (typeof amountUnits)[number];

/** Feedstock id of the line that is water. */
export const waterId = 'water';

export interface PlanLine {
  /** Tells lines of one plan apart; carries no meaning. */
  readonly key: string;
  /** Row of the feedstock table, `waterId`, or null for a person's own. */
  readonly feedstockId: string | null;
  readonly name: string;
  readonly own: OwnFigures;
  /** As it is (wet), in `unit`; null until typed. */
  readonly amount: number | null;
  readonly unit: AmountUnit;
  /** Its amount is to be worked out. */
  readonly find: boolean;
}

export const aimKinds = ['carbonToNitrogen', 'moisture', 'freeAirSpace', 'volume', 'weight'] as const;
export type AimKind = (typeof aimKinds)[number];

/** What the mix should come to. Moisture and free air space 0..1, volume m3 as packed, weight kg. */
export interface Aim {
  readonly on: boolean;
  /** For volume, null means "fill the container". */
  readonly value: number | null;
}

/** What the pile stands in. Lengths in metres. */
export interface ContainerChoice {
  readonly form: 'panel' | 'radius' | 'box';
  readonly panelLength: number;
  readonly panelOverlap: number;
  readonly radius: number;
  readonly boxLength: number;
  readonly boxWidth: number;
  readonly height: number;
  /** Air comes through the wall: wire and cloth do, boards do not. */
  readonly wallPermeable: boolean;
  readonly topOpen: boolean;
  /** Air comes from below: a pallet or pipes under it. */
  readonly baseOpen: boolean;
  readonly channelDiameter: number;
  readonly maximumDistance: number;
  /** Number of channels chosen by hand; null takes the fewest that reach the maximum distance. */
  readonly channelCount: number | null;
}

/** How the pile will be kept and what weather it meets. */
export interface RunningChoice {
  readonly airCelsius: number;
  /** Half the difference between the warmest and coldest hour of a day. */
  readonly dailySwingCelsius: number;
  readonly startCelsius: number;
  readonly litresEveryOtherDay: number;
  /** Day the channel pipes come out, leaving open channels; null leaves them in. */
  readonly pullPipesDay: number | null;
  /** Days between turnings; null means it is never turned. */
  readonly turnEveryDays: number | null;
}

/** Compost an ingredient (by its line) or the whole mix hot for some days before building. */
export interface FirstChoice {
  readonly lineKey: string | 'all';
  readonly days: number;
}

export interface Plan {
  readonly name: string;
  readonly lines: readonly PlanLine[];
  readonly aims: Readonly<Record<AimKind, Aim>>;
  readonly bucketLitres: number;
  readonly barrowLitres: number;
  /** How much less room the mix takes than its parts did loose. */
  readonly packingFraction: number;
  readonly container: ContainerChoice;
  readonly running: RunningChoice;
  readonly first: FirstChoice;
}

/** Parts fill each other's gaps: 10-40 % less volume (pack 1i, from memory, unconfirmed); 20 % to begin with is ours. */
export const packingRange = { low: 0.1, typical: 0.2, high: 0.4 } as const;

/**
 * An empty plan for a static cage. Panel and pipes as in pack section 6 (3.81 m panel, 100 mm pipe); 12 litre bucket,
 * 80 litre barrow, watering and pulling day are ours. Moisture 68 %: close to the 70 % recalled for such cages.
 */
export const emptyPlan: Plan = {
  name: '',
  lines: [],
  aims: {
    carbonToNitrogen: { on: true, value: 30 },
    moisture: { on: true, value: 0.68 },
    freeAirSpace: { on: false, value: 0.4 },
    volume: { on: false, value: null },
    weight: { on: false, value: 500 },
  },
  bucketLitres: 12,
  barrowLitres: 80,
  packingFraction: packingRange.typical,
  container: {
    form: 'panel',
    panelLength: 3.81,
    panelOverlap: 0.1,
    radius: 0.6,
    boxLength: 1.2,
    boxWidth: 1,
    height: 1.2,
    wallPermeable: true,
    topOpen: true,
    baseOpen: true,
    channelDiameter: 0.1,
    maximumDistance: 0.3,
    channelCount: null,
  },
  running: {
    airCelsius: 12,
    dailySwingCelsius: 4,
    startCelsius: 14,
    litresEveryOtherDay: 4,
    pullPipesDay: 7,
    turnEveryDays: null,
  },
  first: { lineKey: 'all', days: 14 },
};

/** Key for a new line, one no line has yet. */
export function nextKey(plan: Plan): string {
  const used = plan.lines.map(({ key }) => Number(key.slice(1)) || 0);
  return `l${Math.max(0, ...used) + 1}`;
}

/** A line for a row of the table, for water, or (with null) for something of one's own. */
export function newLine(plan: Plan, feedstockId: string | null, name: string): PlanLine {
  const unit = feedstockId === waterId ? 'litre' : 'kilogram';
  return { key: nextKey(plan), feedstockId, name, own: noFigures, amount: null, unit, find: false };
}
