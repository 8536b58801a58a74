import type { ChannelTest } from '../../../shared/api/types.ts';
import type { ChannelDeskPort } from '../../notify/port.ts';
import type { ChannelKind } from '../../records/port.ts';
import type { House } from '../house.ts';
import { ApiProblem, notFound } from '../problems/apiProblem.ts';

/** The channels, this one among them. */
export function channelsWith({ channels }: House, channel: ChannelKind): ChannelDeskPort {
  if (channels === null || !channels.isKnown())
    throw new ApiProblem('not-ready', 'No process that sends messages runs: start one with --only notify.');
  if (!channels.kinds().includes(channel)) throw notFound('channel', 'channel', channel);
  return channels;
}

/** Sends a test to an address now, past the outbox, and tells what the other side said. */
export async function testBy(house: House, channel: ChannelKind, address: string): Promise<ChannelTest> {
  const { kind, detail, ...more } = await channelsWith(house, channel).test(channel, address);
  return { outcome: kind, detail, tellOwner: 'tellOwner' in more && more.tellOwner === true };
}
