import { activationsInWindow, floodLimits } from './flood.ts';
import { isNight, localClock } from './localTime.ts';
import type { ReportedText, ReportInput } from './reportInput.ts';

/** One person's load over the span. */
export interface PersonLoad {
  readonly personId: string;
  readonly name: string;
  readonly texts: number;
  readonly perDay: number;
  readonly atNight: number;
  /** The day with the most texts; null when there were none. */
  readonly busiestDay: { readonly day: string; readonly texts: number } | null;
  readonly mostInTenMinutes: number;
}

const dayMs = 86_400_000;

/** Each person's load, the busiest first. Everybody who may be texted is listed, also with none. */
export function personLoads(input: ReportInput): PersonLoad[] {
  const clock = localClock(input.timeZone);
  const texts = Map.groupBy(input.texts, ({ personId }) => personId);
  const days = (input.toMs - input.fromMs) / dayMs;
  return input.people
    .map(({ id, name }) => loadOf(id, name, texts.get(id) ?? [], days, clock))
    .sort((a, b) => b.texts - a.texts);
}

function loadOf(
  personId: string,
  name: string,
  texts: readonly ReportedText[],
  days: number,
  clock: ReturnType<typeof localClock>,
): PersonLoad {
  const local = texts.map(({ createdMs }) => clock(createdMs));
  const byDay = Map.groupBy(local, ({ day }) => day);
  const busiest = [...byDay].sort(([, a], [, b]) => b.length - a.length)[0];
  return {
    personId,
    name,
    texts: texts.length,
    perDay: texts.length / days,
    atNight: local.filter(({ hour }) => isNight(hour)).length,
    busiestDay: busiest === undefined ? null : { day: busiest[0], texts: busiest[1].length },
    mostInTenMinutes: mostInTenMinutes(texts.map(({ createdMs }) => createdMs)),
  };
}

function mostInTenMinutes(timesMs: readonly number[]): number {
  return Math.max(0, ...timesMs.map((timeMs) => activationsInWindow(timesMs, timeMs)));
}

/** Share of the span's ten-minute stretches (cut at whole ten minutes) with more texts to one person than is bearable. */
export function floodShare(input: ReportInput): number {
  const stretchMs = floodLimits.windowMinutes * 60_000;
  const stretches = (input.toMs - input.fromMs) / stretchMs;
  const counts = Map.groupBy(
    input.texts,
    (text) => `${text.personId} ${Math.floor(text.createdMs / stretchMs)}`,
  );
  const flooded = [...counts.values()].filter((texts) => texts.length > floodLimits.startAbove);
  return flooded.length / stretches;
}
