import { z } from 'zod';

const known = (least: number, most: number, unit: string) =>
  z.number().min(least).max(most).nullable().describe(`${unit}; null where nobody wrote it down`);

/** How large a pile was built and of what, as far as somebody wrote it down: the planner does when it starts a pile. */
export const pileBuildSchema = z.strictObject({
  volumeM3: known(0.01, 100_000, 'm3'),
  leastSideMetres: known(
    0.05,
    50,
    'm, smallest of width, depth and height: what decides how fast it loses heat',
  ),
  wetKg: known(0.1, 100_000_000, 'kg as built'),
  carbonToNitrogen: known(1, 10_000, 'C:N of the mix'),
  moistureFraction: known(0, 1, 'of the mix, wet basis, 0 to 1'),
  freeAirSpaceFraction: known(0, 1, 'of the mix, 0 to 1'),
});

/** Nothing in it is ever guessed. */
export type PileBuild = Readonly<z.infer<typeof pileBuildSchema>>;

/** Whether two say the same; left out and null are the same. */
export function isSameBuild(one: PileBuild | null | undefined, other: PileBuild | null | undefined): boolean {
  if (one == null || other == null) return (one ?? null) === (other ?? null);
  return (Object.keys(one) as (keyof PileBuild)[]).every((name) => one[name] === other[name]);
}
