import { computed, effect, signal } from '@preact/signals';
import { airLayoutOf } from '../../../shared/compost/planner/airLayout.ts';
import { buildSheetOf } from '../../../shared/compost/planner/buildSheet.ts';
import { containerOf, fillingOf } from '../../../shared/compost/planner/container.ts';
import { plannedMix } from '../../../shared/compost/planner/mixRanges.ts';
import type { Plan, PlanLine } from '../../../shared/compost/planner/plan.ts';
import { type Drafts, readDrafts, writeDrafts } from './drafts.ts';

/** All plans of this browser, the one being worked on first in mind. */
export const drafts = signal<Drafts>(readDrafts());
/** Whether the browser keeps them. */
export const kept = signal(true);

effect(() => {
  kept.value = writeDrafts(drafts.value);
});

export const plan = computed<Plan>(() => {
  const { plans, currentId } = drafts.value;
  return (plans.find(({ id }) => id === currentId) ?? plans[0]!).plan;
});

/** Replaces parts of the current plan. */
export function change(parts: Partial<Plan>): void {
  const { plans, currentId } = drafts.value;
  const changed = plans.map((each) =>
    each.id === currentId ? { ...each, plan: { ...each.plan, ...parts } } : each,
  );
  drafts.value = { plans: changed, currentId };
}

/** Replaces parts of one line. */
export function changeLine(key: string, parts: Partial<PlanLine>): void {
  change({ lines: plan.value.lines.map((line) => (line.key === key ? { ...line, ...parts } : line)) });
}

export const mix = computed(() => plannedMix(plan.value));

const containerChoice = computed(() => plan.value.container);

/** The container, or why the lengths typed cannot be one. */
export const container = computed(() => {
  try {
    return { container: containerOf(containerChoice.value), problem: null };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { container: null, problem: error.message };
  }
});

const cubicMetres = computed(() => mix.value.figures?.cubicMetres ?? null);

export const filling = computed(() =>
  container.value.container === null ? null : fillingOf(container.value.container, cubicMetres.value),
);

/** Height of the fresh pile; kept apart so that channels are not laid out again at every keystroke in the mix. */
const fillHeight = computed(() => filling.value?.fillHeight ?? null);

export const air = computed(() => {
  const { container: room } = container.value;
  if (room === null || fillHeight.value === null) return null;
  return airLayoutOf(containerChoice.value, room, fillHeight.value);
});

export const sheet = computed(() => {
  const { container: room } = container.value;
  return room === null ? null : buildSheetOf(plan.value, room, mix.value, air.value);
});
