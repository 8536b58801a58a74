/** Night for the report: from 22:00 to 06:00 by the yard's clock (our choice, no source). */
export const night = { fromHour: 22, toHour: 6 } as const;

/** Calendar day (`2026-03-29`) and hour (0..23) of instants in a time zone, by its rules for summer time. */
export function localClock(
  timeZone: string,
): (timeMs: number) => { readonly day: string; readonly hour: number } {
  const format = new Intl.DateTimeFormat('en-CA', {
    timeZone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    hourCycle: 'h23',
  });
  return (timeMs) => {
    const parts = new Map(format.formatToParts(timeMs).map(({ type, value }) => [type, value]));
    const day = `${parts.get('year')}-${parts.get('month')}-${parts.get('day')}`;
    return { day, hour: Number(parts.get('hour')) };
  };
}

export function isNight(hour: number): boolean {
  return hour >= night.fromHour || hour < night.toHour;
}
