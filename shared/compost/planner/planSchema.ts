import { z } from 'zod';
import { aimKinds, amountUnits, type Plan } from './plan.ts';

/** Plans come back from a browser's storage, where anything may have happened to them: parse before trusting. */
const share = z.number().min(0).max(1);
const maybeShare = share.nullable();
const length = z.number().min(0.05).max(50);
const celsius = z.number().min(-40).max(90);

const ownSchema = z.object({
  moistureFraction: maybeShare,
  nitrogenFractionDry: maybeShare,
  carbonToNitrogen: z.number().min(1).max(5000).nullable(),
  ashFractionDry: maybeShare,
  bulkDensity: z.number().min(5).max(2000).nullable(),
});

const lineSchema = z.object({
  key: z.string().min(1).max(20),
  feedstockId: z.string().max(80).nullable(),
  name: z.string().max(80),
  own: ownSchema,
  amount: z.number().min(0).max(1e6).nullable(),
  unit: z.enum(amountUnits),
  find: z.boolean(),
});

const aimSchema = z.object({ on: z.boolean(), value: z.number().min(0).max(1e6).nullable() });

const containerSchema = z.object({
  form: z.enum(['panel', 'radius', 'box']),
  panelLength: length,
  panelOverlap: z.number().min(0).max(5),
  radius: length,
  boxLength: length,
  boxWidth: length,
  height: length,
  wallPermeable: z.boolean(),
  topOpen: z.boolean(),
  baseOpen: z.boolean(),
  channelDiameter: z.number().min(0.02).max(0.5),
  maximumDistance: z.number().min(0.1).max(2),
  channelCount: z.int().min(0).max(40).nullable(),
});

const runningSchema = z.object({
  airCelsius: celsius,
  dailySwingCelsius: z.number().min(0).max(20),
  startCelsius: celsius,
  litresEveryOtherDay: z.number().min(0).max(500),
  pullPipesDay: z.number().min(0).max(365).nullable(),
  turnEveryDays: z.number().min(1).max(90).nullable(),
});

export const planSchema = z.object({
  name: z.string().max(80),
  lines: z.array(lineSchema).max(30),
  aims: z.record(z.enum(aimKinds), aimSchema),
  bucketLitres: z.number().min(1).max(100),
  barrowLitres: z.number().min(10).max(1000),
  packingFraction: z.number().min(0).max(0.6),
  container: containerSchema,
  running: runningSchema,
  first: z.object({ lineKey: z.string().max(20), days: z.number().min(1).max(120) }),
});

/** The plan in some stored value, or null when it is not one. */
export function readPlan(stored: unknown): Plan | null {
  const parsed = planSchema.safeParse(stored);
  return parsed.success ? parsed.data : null;
}
