import type { ProbeView } from '../../../shared/api/types.ts';
import { probeOwnsName } from '../../../shared/senml/channelName.ts';
import type { Probe } from '../../records/port.ts';
import type { House } from '../house.ts';
import { probeTopic } from '../probeCredential.ts';
import { readingView } from './latest.ts';

/** Probes with the channels each has sent so far and the latest reading of each. */
export async function probeViews(house: House, probes: readonly Probe[]): Promise<ProbeView[]> {
  const known = (await house.series.channels()).sort();
  const owned = known.filter((name) => probes.some((probe) => probeOwnsName(probe.id, name)));
  const latest = await house.series.latest(owned);
  return probes.map(({ id, yardId, label, createdMs, revokedMs, expectedIntervalSeconds }) => ({
    id,
    label,
    createdMs,
    revokedMs,
    expectedIntervalSeconds,
    topic: probeTopic(yardId, id),
    channels: owned
      .filter((name) => probeOwnsName(id, name))
      .map((channel) => ({ channel, latest: readingView(latest.get(channel)?.last ?? null) })),
  }));
}
