import type { PlacedChannel } from '../../shared/rules/channelTrack.ts';
import type { PileLimits } from '../../shared/rules/pileSubject.ts';
import type { PileFacts } from '../../shared/rules/pileWindow.ts';
import type { ProbeFacts } from '../../shared/rules/probeWindow.ts';
import type { Person } from '../../shared/yard/people.ts';
import type { ChannelName, Pile, PileId, Placement, ProbeId, Yard } from '../../shared/yard/yard.ts';
import type { Probe, Records } from '../records/port.ts';
import { probeOfChannel } from './probeOfChannel.ts';

/** What the records say of one yard, as far as judgement needs it, read at one time. */
export interface YardFacts {
  readonly yard: Yard;
  readonly people: readonly Person[];
  readonly piles: readonly Pile[];
  readonly placements: readonly Placement[];
  readonly placementsOf: ReadonlyMap<ChannelName, readonly Placement[]>;
  readonly probes: ReadonlyMap<ProbeId, Probe>;
}

/** Reads a yard's facts; its open piles only. */
export async function readYardFacts(records: Records, yard: Yard, nowMs: number): Promise<YardFacts> {
  const [people, piles, placements, probes] = await Promise.all([
    records.people.list(yard.id),
    records.piles.list(yard.id, { openAtMs: nowMs }),
    records.placements.list(yard.id),
    records.probes.list(yard.id),
  ]);
  const inService = probes.filter((probe) => probe.revokedMs === null);
  return {
    yard,
    people,
    piles,
    placements,
    placementsOf: Map.groupBy(placements, ({ channel }) => channel),
    probes: new Map(inService.map((probe) => [probe.id, probe])),
  };
}

/** The yard's own air sensors: they stand in no pile and count for all. */
export function yardAir(facts: YardFacts): Placement[] {
  return facts.placements.filter((placement) => placement.pileId === null && placement.position === 'air');
}

/** What judgement needs of one pile: its journal and limits are read here. */
export async function readPileFacts(
  records: Records,
  facts: YardFacts,
  pile: Pile,
  defaultIntervalSeconds: number,
): Promise<{ readonly facts: PileFacts; readonly limits: PileLimits }> {
  const [journal, limits] = await Promise.all([
    records.journal.list(pile.id),
    records.limits.current(pile.id),
  ]);
  const own = facts.placements.filter((placement) => placement.pileId === pile.id);
  const placed = [...own, ...yardAir(facts)].map((placement) =>
    placedChannel(facts, placement, defaultIntervalSeconds),
  );
  const inOrder = [...journal].sort((a, b) => a.timeMs - b.timeMs);
  return { facts: { pile, placed, journal: inOrder }, limits };
}

/** A reading speaks for four of its probe's usual gaps, and never for less than an hour: a pile changes over hours. */
function placedChannel(
  facts: YardFacts,
  placement: Placement,
  defaultIntervalSeconds: number,
): PlacedChannel {
  const probeId = probeOfChannel(placement.channel, facts.probes);
  const probe = probeId === null ? undefined : facts.probes.get(probeId);
  const seconds = probe?.expectedIntervalSeconds ?? defaultIntervalSeconds;
  return { placement, maxAgeMinutes: Math.max(60, (4 * seconds) / 60) };
}

/** What judgement needs of one probe: where its channels stand. */
export function probeFactsOf(facts: YardFacts, probe: Probe, defaultIntervalSeconds: number): ProbeFacts {
  const piles = new Map<PileId, Pile>(facts.piles.map((pile) => [pile.id, pile]));
  const places = facts.placements
    .filter((placement) => probeOfChannel(placement.channel, facts.probes) === probe.id)
    .filter((placement) => placement.pileId === null || piles.has(placement.pileId))
    .map((placement) => {
      const pile = placement.pileId === null ? undefined : piles.get(placement.pileId);
      const { channel, quantity, position, fromMs, toMs } = placement;
      return {
        channel,
        quantity,
        position,
        fromMs,
        toMs,
        pileId: pile?.id ?? null,
        pileName: pile?.name ?? '',
        place: pile?.place ?? '',
      };
    });
  return {
    probeId: probe.id,
    label: probe.label,
    expectedIntervalSeconds: probe.expectedIntervalSeconds,
    defaultIntervalSeconds,
    places,
  };
}
