import type { ReportInput } from './reportInput.ts';

/** A text counts as acted upon when somebody answers it, or does something to its pile, within this long (our choice). */
export const actedWithinHours = 12;

/**
 * How many of the occurrences people were texted about led to something: acknowledged or reset by a person, or an entry
 * in the pile's journal, within some hours of the first text. Grouped texts name no alarm and are left out.
 */
export function actedUpon(
  { texts, transitions, deeds }: Pick<ReportInput, 'texts' | 'transitions' | 'deeds'>,
  withinHours = actedWithinHours,
): { readonly texted: number; readonly acted: number } {
  const first = new Map<string, ReportInput['texts'][number]>();
  for (const text of texts) {
    if (text.alarmId === null) continue;
    const key = `${text.alarmId} ${text.occurrence}`;
    if ((first.get(key)?.createdMs ?? Number.POSITIVE_INFINITY) > text.createdMs) first.set(key, text);
  }
  const windowMs = withinHours * 3_600_000;
  const isSoon = (atMs: number, text: { readonly createdMs: number }) =>
    atMs >= text.createdMs && atMs <= text.createdMs + windowMs;
  const acted = [...first.values()].filter(
    (text) =>
      transitions.some(
        ({ alarmId, by, atMs }) => alarmId === text.alarmId && by !== null && isSoon(atMs, text),
      ) || deeds.some(({ pileId, timeMs }) => pileId === text.pileId && isSoon(timeMs, text)),
  );
  return { texted: first.size, acted: acted.length };
}
