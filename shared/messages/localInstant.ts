/** A moment by a yard's wall clock. */
export interface LocalMoment {
  /** `2026-03-29` */
  readonly day: string;
  /** 0..1439 */
  readonly minute: number;
  /** 1 is Monday, 7 is Sunday. */
  readonly weekday: number;
}

const minuteMs = 60_000;
const dayMs = 86_400_000;
const formats = new Map<string, Intl.DateTimeFormat>();

/** What a wall clock in the zone shows at an instant. */
export function localMoment(timeZone: string, atMs: number): LocalMoment {
  const parts = new Map(
    formatOf(timeZone)
      .formatToParts(atMs)
      .map(({ type, value }) => [type, value]),
  );
  const day = `${parts.get('year')}-${parts.get('month')}-${parts.get('day')}`;
  return {
    day,
    minute: Number(parts.get('hour')) * 60 + Number(parts.get('minute')),
    weekday: weekdayOf(day),
  };
}

/**
 * The instant at which a wall clock comes to a time of day. A time that comes twice (clocks go back) is meant the first
 * time; one that is skipped (clocks go forward) is the moment of the jump, so that what begins or ends then neither
 * falls out nor overlaps. Reference W-42, C-112 to C-115.
 */
export function instantOf(timeZone: string, day: string, minute: number): number {
  const asUtc = Date.parse(`${day}T00:00:00Z`) + minute * minuteMs;
  const offsets = [offsetMs(timeZone, asUtc - dayMs), offsetMs(timeZone, asUtc + dayMs)];
  const fits = offsets
    .map((offset) => asUtc - offset)
    .filter((atMs) => atMs + offsetMs(timeZone, atMs) === asUtc);
  return fits.length > 0 ? Math.min(...fits) : jumpBetween(timeZone, asUtc - dayMs, asUtc + dayMs);
}

/** The day that many days later (or earlier) by the calendar. */
export function dayAfter(day: string, days = 1): string {
  return new Date(Date.parse(`${day}T12:00:00Z`) + days * dayMs).toISOString().slice(0, 10);
}

export function weekdayOf(day: string): number {
  return new Date(`${day}T12:00:00Z`).getUTCDay() || 7;
}

function formatOf(timeZone: string): Intl.DateTimeFormat {
  const known = formats.get(timeZone);
  if (known !== undefined) return known;
  const two = '2-digit' as const;
  const made = new Intl.DateTimeFormat('en-CA', {
    ...{ timeZone, year: 'numeric', month: two, day: two, hour: two, minute: two, second: two },
    hourCycle: 'h23',
  });
  formats.set(timeZone, made);
  return made;
}

/** How far the wall clock is ahead of UTC. */
function offsetMs(timeZone: string, atMs: number): number {
  const { day, minute } = localMoment(timeZone, atMs);
  return Date.parse(`${day}T00:00:00Z`) + minute * minuteMs - Math.floor(atMs / minuteMs) * minuteMs;
}

function jumpBetween(timeZone: string, fromMs: number, toMs: number): number {
  const before = offsetMs(timeZone, fromMs);
  let [low, high] = [Math.floor(fromMs / minuteMs), Math.ceil(toMs / minuteMs)];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (offsetMs(timeZone, middle * minuteMs) === before) low = middle;
    else high = middle;
  }
  return high * minuteMs;
}
