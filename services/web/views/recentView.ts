import type { RecentView } from '../../../shared/api/types.ts';
import { guessQuantity } from '../../../shared/readings/guessQuantity.ts';
import { probeOwnsName } from '../../../shared/senml/channelName.ts';
import type { Probe } from '../../records/port.ts';
import type { StoredReading } from '../../series/port.ts';
import type { House } from '../house.ts';

/** Enough for a reading every two seconds over ten minutes, and a bound for who asks for hours. */
const mostPoints = 400;

/** What the channels of these probes said in the last minutes. */
export async function recentView(
  house: House,
  probes: readonly Probe[],
  minutes: number,
): Promise<RecentView> {
  const nowMs = house.clock.nowMs();
  const known = (await house.series.channels()).sort();
  const owned = probes.flatMap(({ id }) =>
    known.filter((channel) => probeOwnsName(id, channel)).map((channel) => ({ channel, probeId: id })),
  );
  const channels = owned.map(async ({ channel, probeId }) => {
    // A probe's clock may run a little ahead: what it stamps so is what it says now.
    const span = { fromMs: nowMs - minutes * 60_000, toMs: nowMs + 10 * 60_000 };
    const readings = await house.series.range({ channel, ...span, quality: 'all', maxPoints: mostPoints });
    const quantity =
      house.probeDesk?.contactOf(probeId)?.quantities.get(channel) ??
      guessQuantity(channel.slice(probeId.length + 1));
    return { channel, probeId, quantity, points: readings.map(pointOf) };
  });
  return { nowMs, channels: await Promise.all(channels) };
}

function pointOf({ timeMs, value, rawValue, quality, reason }: StoredReading) {
  return { timeMs, value, rawValue, quality, reason };
}
