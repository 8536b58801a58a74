import type { SparkHour } from '../../../shared/api/types.ts';
import type { Placement } from '../../../shared/yard/yard.ts';
import type { Rollup, SeriesStore } from '../../series/port.ts';

const hourMs = 3_600_000;
const sparkHours = 48;

/**
 * The core's last 48 clock hours. Of several core channels each hour shows the one with the highest mean: a pile is
 * judged by its hottest core channel, not by a mean that hides it. Hours without a good reading are left out.
 */
export async function coreSpark(
  series: SeriesStore,
  placements: readonly Placement[],
  nowMs: number,
): Promise<SparkHour[]> {
  const fromMs = Math.floor(nowMs / hourMs) * hourMs - (sparkHours - 1) * hourMs;
  const cores = placements
    .filter(
      ({ position, quantity, toMs }) =>
        position === 'core' && quantity === 'temperature' && (toMs === null || toMs > fromMs),
    )
    // One numbering at every look, so that a line breaks only where the hottest channel changed.
    .sort((one, other) => one.channel.localeCompare(other.channel));
  const hours = new Map<number, SparkHour>();
  for (const [source, core] of cores.entries()) {
    const rollups = await series.rollups(core.channel, 'hour', fromMs, nowMs);
    for (const rollup of rollups) if (stoodThere(core, rollup)) keepHottest(hours, rollup, source);
  }
  return [...hours.values()].sort((a, b) => a.startMs - b.startMs);
}

/** An hour in which the probe was moved would mix two piles: it belongs to neither. */
function stoodThere(placement: Placement, rollup: Rollup): boolean {
  const endMs = rollup.startMs + hourMs;
  return (
    rollup.count > 0 &&
    rollup.startMs >= placement.fromMs &&
    (placement.toMs === null || endMs <= placement.toMs)
  );
}

function keepHottest(hours: Map<number, SparkHour>, rollup: Rollup, source: number): void {
  const kept = hours.get(rollup.startMs);
  if (kept !== undefined && kept.mean >= rollup.mean) return;
  const { startMs, minimum, maximum, mean } = rollup;
  hours.set(startMs, {
    startMs,
    min: hundredths(minimum),
    max: hundredths(maximum),
    mean: hundredths(mean),
    source,
  });
}

/** Sixteen digits of a mean would be half of the wall's bytes. */
const hundredths = (value: number): number => Math.round(value * 100) / 100;
