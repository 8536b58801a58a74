import type { Goal } from '../mix/goal.ts';
import { plannerFormula } from './mixFigures.ts';
import { type AimKind, aimKinds, type Plan } from './plan.ts';

/** The aims that are switched on, as goals of the solver; volume without a number fills the container. */
export function goalsOf(plan: Plan, containerCubicMetres: number): Goal[] {
  return aimKinds.flatMap((kind) => {
    const { on, value } = plan.aims[kind];
    return on ? goalOf(kind, value, containerCubicMetres) : [];
  });
}

/** Aims that are switched on without a number to aim for. */
export function emptyAims(plan: Plan): AimKind[] {
  return aimKinds.filter((kind) => plan.aims[kind].on && plan.aims[kind].value === null && kind !== 'volume');
}

function goalOf(kind: AimKind, value: number | null, containerCubicMetres: number): Goal[] {
  if (kind === 'volume') return [{ kind: 'volume', cubicMetres: value ?? containerCubicMetres }];
  if (value === null) return [];
  switch (kind) {
    case 'carbonToNitrogen':
      return [{ kind: 'carbon-to-nitrogen', ratio: value }];
    case 'moisture':
      return [{ kind: 'moisture', fraction: value }];
    case 'freeAirSpace':
      return [{ kind: 'free-air-space', fraction: value, formula: plannerFormula }];
    case 'weight':
      return [{ kind: 'mass', kilograms: value }];
  }
}
