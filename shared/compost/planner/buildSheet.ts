import type { AirLayout } from './airLayout.ts';
import { kilogramsPerLitre, litresIn, partOfLine } from './amounts.ts';
import { type Container, fillingOf } from './container.ts';
import { isWater } from './figures.ts';
import { readLine } from './lineIngredient.ts';
import type { PlannedMix } from './mixRanges.ts';
import type { Plan } from './plan.ts';
import { channelsOf, type SheetChannels } from './sheetChannels.ts';

/** One ingredient as it is carried to the pile. */
export interface SheetLine {
  readonly name: string;
  readonly kilograms: number;
  /** Loose; null where nobody knows its bulk density. */
  readonly litres: number | null;
  readonly buckets: number | null;
  readonly kilogramsPerBucket: number | null;
  readonly kilogramsPerLayer: number;
  readonly bucketsPerLayer: number | null;
}

export interface BuildSheet {
  readonly lines: readonly SheetLine[];
  readonly wetKilograms: number;
  readonly litresOfWater: number;
  readonly litresPerLayer: number;
  readonly layers: number;
  readonly layerHeight: number;
  readonly fillHeight: number;
  readonly cubicMetres: number | null;
  readonly cubicMetresOver: number;
  /** Heaviest bucket on the list, so that it can be filled less. */
  readonly heaviestBucketKilograms: number | null;
  readonly channels: SheetChannels | null;
}

/** About a hand's breadth and a half: thin enough to wet and mix as it goes in. Common practice, no source. */
const layerMetres = 0.15;

/** Everything needed at the pile, from a plan that has a mix. Null when nothing weighs anything. */
export function buildSheetOf(
  plan: Plan,
  container: Container,
  mix: PlannedMix,
  air: AirLayout | null,
): BuildSheet | null {
  if (mix.figures === null) return null;
  const filling = fillingOf(container, mix.figures.cubicMetres);
  const layers = Math.max(1, Math.round(filling.fillHeight / layerMetres));
  const lines = plan.lines.flatMap((line) => (isWater(line) ? [] : sheetLines(line.key, plan, layers)));
  const litresOfWater = waterIn(plan);
  const buckets = lines.flatMap((line) => line.kilogramsPerBucket ?? []);
  return {
    lines,
    wetKilograms: mix.figures.wetKilograms,
    litresOfWater,
    litresPerLayer: litresOfWater / layers,
    layers,
    layerHeight: filling.fillHeight / layers,
    fillHeight: filling.fillHeight,
    cubicMetres: mix.figures.cubicMetres,
    cubicMetresOver: filling.cubicMetresOver,
    heaviestBucketKilograms: buckets.length === 0 ? null : Math.max(...buckets),
    channels: air === null ? null : channelsOf(plan, container, air),
  };
}

function sheetLines(key: string, plan: Plan, layers: number): SheetLine[] {
  const line = plan.lines.find((each) => each.key === key)!;
  const { ingredient } = readLine(line);
  const { part } = partOfLine(line, plan);
  if (ingredient === null || part === null || part.wetKilograms === 0) return [];
  const kilograms = part.wetKilograms;
  const density = kilogramsPerLitre(ingredient);
  const litres = density === null ? null : kilograms / density;
  const bucketLitres = litresIn('bucket', plan);
  const buckets = litres === null ? null : litres / bucketLitres;
  return [
    {
      name: ingredient.name,
      kilograms,
      litres,
      buckets,
      kilogramsPerBucket: density === null ? null : density * bucketLitres,
      kilogramsPerLayer: kilograms / layers,
      bucketsPerLayer: buckets === null ? null : buckets / layers,
    },
  ];
}

function waterIn(plan: Plan): number {
  const waters = plan.lines.filter(isWater).map((line) => partOfLine(line, plan).part?.wetKilograms ?? 0);
  return waters.reduce((sum, each) => sum + each, 0);
}
