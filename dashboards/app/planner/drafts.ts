import { emptyPlan, type Plan } from '../../../shared/compost/planner/plan.ts';
import { readPlan } from '../../../shared/compost/planner/planSchema.ts';

export interface Draft {
  readonly id: string;
  readonly plan: Plan;
}

export interface Drafts {
  readonly plans: readonly Draft[];
  readonly currentId: string;
}

const storageKey = 'tilth-plans';

const fresh: Drafts = { plans: [{ id: 'p1', plan: emptyPlan }], currentId: 'p1' };

/** The plans this browser kept; what cannot be read any more is left out. */
export function readDrafts(): Drafts {
  try {
    const stored: unknown = JSON.parse(localStorage.getItem(storageKey) ?? 'null');
    if (typeof stored !== 'object' || stored === null) return fresh;
    const { plans, currentId } = stored as { plans?: unknown; currentId?: unknown };
    const read = Array.isArray(plans) ? plans.flatMap(readDraft) : [];
    if (read.length === 0) return fresh;
    return { plans: read, currentId: read.find(({ id }) => id === currentId)?.id ?? read[0]!.id };
  } catch {
    return fresh;
  }
}

function readDraft(stored: unknown): Draft[] {
  const { id, plan } = (stored ?? {}) as { id?: unknown; plan?: unknown };
  const read = readPlan(plan);
  return typeof id === 'string' && read !== null ? [{ id, plan: read }] : [];
}

/** Whether the browser took them. */
export function writeDrafts(drafts: Drafts): boolean {
  try {
    localStorage.setItem(storageKey, JSON.stringify(drafts));
    return true;
  } catch {
    return false;
  }
}

/** The same with a new, empty plan to work on. */
export function withNewDraft({ plans }: Drafts): Drafts {
  const used = plans.map(({ id }) => Number(id.slice(1)) || 0);
  const id = `p${Math.max(0, ...used) + 1}`;
  return { plans: [...plans, { id, plan: emptyPlan }], currentId: id };
}

/** The same without the current plan. */
export function withoutCurrent({ plans, currentId }: Drafts): Drafts {
  const left = plans.filter(({ id }) => id !== currentId);
  return left.length === 0 ? fresh : { plans: left, currentId: left[0]!.id };
}
