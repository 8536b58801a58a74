import type { Sample } from '../../readings/reading.ts';

const hourMs = 3_600_000;
/** So long a lost leading channel is waited for, and hours without it are left empty. */
const waitedHours = 24;
/** Channels closer than this take turns at leading. */
const alikeKelvin = 1;

/**
 * Several core channels as one series of hours: the hottest counts. While the one that led is silent or not believed, a
 * cooler one does not take its place: a dying probe must not look like cooling (see shared/rules/extreme.ts).
 * @param channels hourly means, each in time order.
 */
export function hottestHours(channels: readonly (readonly Sample[])[]): Sample[] {
  const byHour = new Map<number, { channel: number; value: number }>();
  const heard = channels.map(
    (samples) => new Map(samples.map(({ timeMs, value }) => [Math.floor(timeMs / hourMs), value])),
  );
  for (const [channel, hours] of heard.entries())
    for (const [hour, value] of hours)
      if (value > (byHour.get(hour)?.value ?? Number.NEGATIVE_INFINITY)) byHour.set(hour, { channel, value });
  const kept: Sample[] = [];
  let leader: { channel: number; value: number; hour: number } | null = null;
  for (const hour of [...byHour.keys()].sort((one, other) => one - other)) {
    const best = byHour.get(hour)!;
    const isLost =
      leader !== null &&
      !heard[leader.channel]!.has(hour) &&
      hour - leader.hour <= waitedHours &&
      best.value < leader.value - alikeKelvin;
    if (isLost) continue;
    leader = { ...best, hour };
    kept.push({ timeMs: hour * hourMs, value: best.value });
  }
  return kept;
}
