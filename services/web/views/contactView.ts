import type { ProbeContactView } from '../../../shared/api/types.ts';
import type { Probe } from '../../records/port.ts';
import type { House } from '../house.ts';
import { quarantineView } from './quarantineView.ts';

/** How far back a knock at the door still matters to somebody who is setting a probe up. */
const lookBackMs = 15 * 60_000;
const mostSetAside = 5;
const quarantineLookedAt = 100;

/** How one probe gets through to us: signed in, refused, set aside or heard. */
export async function contactView(house: House, probe: Probe): Promise<ProbeContactView> {
  const nowMs = house.clock.nowMs();
  const contact = house.probeDesk?.contactOf(probe.id) ?? null;
  const lately = (house.probeDesk?.refusedSignIns() ?? []).filter(({ atMs }) => nowMs - atMs < lookBackMs);
  const items = await house.records.quarantine.list(probe.yardId, quarantineLookedAt);
  return {
    nowMs,
    connected: house.probeDesk?.isConnected(probe.id) ?? null,
    receivedMs: contact?.receivedMs ?? null,
    clockAheadMs: contact?.clockAheadMs ?? null,
    refusedSignIn: lately.find(({ name }) => name === probe.id) ?? null,
    strangers: await strangersIn(house, lately),
    setAside: items
      .filter((item) => item.probe === probe.id && nowMs - item.receivedMs < lookBackMs)
      .slice(0, mostSetAside)
      .map(quarantineView),
  };
}

type Refused = ProbeContactView['strangers'][number];

/** Names that are no probe at all; a probe of another yard is none of this yard's business. */
async function strangersIn(house: House, refused: readonly Refused[]): Promise<Refused[]> {
  const strangers: Refused[] = [];
  for (const { name, atMs, count } of refused.slice(0, 10))
    if ((await house.records.probes.get(name)) === null) strangers.push({ name, atMs, count });
  return strangers;
}
