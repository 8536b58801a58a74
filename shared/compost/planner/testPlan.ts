import { emptyPlan, newLine, type Plan, type PlanLine } from './plan.ts';

/** Test help: a plan of lines given by their feedstock id and what differs from an empty line. */
export function planOf(
  lines: readonly (readonly [feedstockId: string | null, parts: Partial<PlanLine>])[],
  parts: Partial<Plan> = {},
): Plan {
  const made: PlanLine[] = [];
  for (const [id, line] of lines)
    made.push({ ...newLine({ ...emptyPlan, lines: made }, id, line.name ?? id ?? 'own'), ...line });
  return { ...emptyPlan, ...parts, lines: made };
}

/** Test help: aims with those named switched on and all others off. */
export function aimsOf(on: Partial<Record<keyof Plan['aims'], number | null>>): Plan['aims'] {
  const entries = Object.entries(emptyPlan.aims).map(([kind, aim]) => {
    const value = on[kind as keyof Plan['aims']];
    return [kind, value === undefined ? { ...aim, on: false } : { on: true, value }];
  });
  return Object.fromEntries(entries) as Plan['aims'];
}
