import type { AlarmTransition, ConditionId, Priority } from '../alarms/alarm.ts';

/** A text that would have gone out, to everybody who wants texts of this priority. */
export interface ReplayText {
  readonly condition: ConditionId;
  readonly occurrence: number;
  readonly atMs: number;
  readonly priority: Priority;
}

/** A step of an alarm's life with what its transition does not hold. */
export interface JudgedStep {
  readonly condition: ConditionId;
  readonly transition: AlarmTransition;
  readonly priority: Priority;
}

/**
 * The texts that follow from an alarm's life, as rules send them: one for each new occurrence, not sooner than the
 * quiet time after the last one about the same condition, and only when the alarm still asks for attention by then.
 * In a replay nobody acknowledges anything. `steps` in time order.
 */
export function textsOf(
  steps: readonly JudgedStep[],
  quietMinutes: (condition: ConditionId) => number,
  toMs: number,
): ReplayText[] {
  const byCondition = Map.groupBy(steps, ({ condition }) => condition);
  return [...byCondition]
    .flatMap(([condition, own]) => textsOfCondition(own, quietMinutes(condition) * 60_000, toMs))
    .sort((a, b) => a.atMs - b.atMs);
}

function textsOfCondition(steps: readonly JudgedStep[], quietMs: number, toMs: number): ReplayText[] {
  const texts: ReplayText[] = [];
  let lastMs = Number.NEGATIVE_INFINITY;
  let told = 0;
  steps.forEach(({ condition, transition, priority }, index) => {
    const { occurrence, to, atMs } = transition;
    if (to !== 'unacknowledged' || occurrence <= told) return;
    const dueMs = Math.max(atMs, lastMs + quietMs);
    if (dueMs > toMs || !stillAsks(steps, index, dueMs)) return;
    told = occurrence;
    lastMs = dueMs;
    texts.push({ condition, occurrence, atMs: dueMs, priority });
  });
  return texts;
}

/** At `dueMs` the alarm stands unacknowledged in the occurrence raised at this step. */
function stillAsks(steps: readonly JudgedStep[], index: number, dueMs: number): boolean {
  let latest = steps[index]!.transition;
  for (let next = index + 1; next < steps.length; next += 1) {
    const { transition } = steps[next]!;
    if (transition.atMs > dueMs) break;
    latest = transition;
  }
  return latest.to === 'unacknowledged' && latest.occurrence === steps[index]!.transition.occurrence;
}
