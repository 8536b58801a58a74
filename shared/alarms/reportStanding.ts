import { isChattering } from './chattering.ts';
import { standingStates } from './lifecycle.ts';
import type { ReportInput } from './reportInput.ts';
import { staleAfterHours } from './stale.ts';

const hourMs = 3_600_000;
const dayMs = 24 * hourMs;

/** A stretch in which one alarm asked for attention without a break. */
export interface StandingStretch {
  readonly alarmId: string;
  /** May lie before the span. */
  readonly fromMs: number;
  readonly toMs: number;
}

/** When each alarm stood in the span, from its steps and, where there are none at all, from how it stands now. */
export function standingStretches({ alarms, transitions, fromMs, toMs }: ReportInput): StandingStretch[] {
  const steps = Map.groupBy(transitions, ({ alarmId }) => alarmId);
  return alarms.flatMap((alarm) => {
    const own = steps.get(alarm.id) ?? [];
    const inSpan = own.filter(({ atMs }) => atMs < toMs);
    let startMs = isStanding(own[0]?.from ?? alarm.state) ? startBefore(alarm, own.length, fromMs) : null;
    const stretches: StandingStretch[] = [];
    for (const { atMs, to } of inSpan) {
      if (isStanding(to)) startMs ??= atMs;
      else if (startMs !== null) {
        stretches.push({ alarmId: alarm.id, fromMs: startMs, toMs: atMs });
        startMs = null;
      }
    }
    if (startMs !== null) stretches.push({ alarmId: alarm.id, fromMs: startMs, toMs });
    return stretches;
  });
}

/** What stood when the span began has stood for longer; since when is on record only where nothing has happened since. */
function startBefore(alarm: ReportInput['alarms'][number], steps: number, fromMs: number): number {
  return steps > 0 ? fromMs : Math.min(alarm.activeSinceMs ?? fromMs, fromMs);
}

/** Alarms that went stale, and the most that were stale at once at the end of any day of the span. */
export function staleCounts(
  stretches: readonly StandingStretch[],
  { fromMs, toMs }: Pick<ReportInput, 'fromMs' | 'toMs'>,
): { readonly alarms: number; readonly mostOnOneDay: number } {
  const stale = stretches.filter((stretch) => stretch.toMs - stretch.fromMs > staleAfterHours * hourMs);
  let mostOnOneDay = 0;
  for (let endMs = Math.min(fromMs + dayMs, toMs); endMs <= toMs; endMs += dayMs) {
    const then = stale.filter(
      (stretch) => stretch.fromMs < endMs - staleAfterHours * hourMs && stretch.toMs >= endMs,
    );
    mostOnOneDay = Math.max(mostOnOneDay, then.length);
  }
  return { alarms: new Set(stale.map(({ alarmId }) => alarmId)).size, mostOnOneDay };
}

/** Times each alarm became active in the span, oldest first. */
export function activationsByAlarm({
  transitions,
  toMs,
}: Pick<ReportInput, 'transitions' | 'toMs'>): Map<string, number[]> {
  const active = transitions.filter(({ event, atMs }) => event === 'became-active' && atMs < toMs);
  return new Map(
    [...Map.groupBy(active, ({ alarmId }) => alarmId)].map(([id, steps]) => [
      id,
      steps.map(({ atMs }) => atMs).sort((a, b) => a - b),
    ]),
  );
}

/** How often in the span an alarm went in and out so fast that it was held. */
export function chatterCount(activationsMs: readonly number[]): number {
  return activationsMs.filter((_timeMs, index) => isChattering(activationsMs.slice(0, index + 1).reverse()))
    .length;
}

const isStanding = (state: (typeof standingStates)[number]): boolean => standingStates.includes(state);
