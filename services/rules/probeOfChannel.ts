import type { ChannelName, ProbeId } from '../../shared/yard/yard.ts';

/**
 * The probe a channel belongs to: the longest known probe id that the channel's name begins with, up to one of the
 * separators a SenML name may have (RFC 8428 section 4.5.1). Null when no known probe fits.
 */
export function probeOfChannel(channel: ChannelName, probes: { has(id: ProbeId): boolean }): ProbeId | null {
  if (probes.has(channel)) return channel;
  for (let end = channel.length - 1; end > 0; end -= 1) {
    if (!'_/:;.'.includes(channel[end]!)) continue;
    const id = channel.slice(0, end);
    if (probes.has(id)) return id;
  }
  return null;
}
