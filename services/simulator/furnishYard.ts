import type { Intervention } from '../../shared/compost/pileModel/interventions.ts';
import type { JournalKind } from '../../shared/yard/journal.ts';
import type { ChannelName, PileId, YardId } from '../../shared/yard/yard.ts';
import type { Records } from '../records/port.ts';
import { type DemoPile, demoPeople, demoPiles, demoYard } from './demoYard.ts';

const dayMs = 86_400_000;

/** A demo pile that now exists in the records, with the probe that stands in it. */
export interface FurnishedPile {
  readonly pile: DemoPile;
  readonly pileId: PileId;
  readonly probeId: string;
  readonly secret: string;
  readonly builtMs: number;
}

export interface FurnishedYard {
  readonly yardId: YardId;
  readonly ownerId: string;
  readonly piles: readonly FurnishedPile[];
  /** The yard's own air sensor. */
  readonly air: { readonly probeId: string; readonly secret: string };
}

/** Makes a probe's secret and its stored form; the broker's sign-in knows how the two belong together. */
export type MakeSecret = () => { readonly secret: string; readonly hash: string };

/** Writes the demo yard into empty records: people, piles, probes, placements and what was done to the piles so far. */
export async function furnishYard(
  records: Records,
  nowMs: number,
  makeSecret: MakeSecret,
): Promise<FurnishedYard> {
  const yard = await records.yards.create(demoYard);
  const people = [];
  for (const person of demoPeople) {
    const texted = { receivesTexts: person.phone !== null, disabled: false };
    people.push(await records.people.create({ yardId: yard.id, ...person, ...texted }, null));
  }
  const piles: FurnishedPile[] = [];
  for (const [index, pile] of demoPiles.entries()) {
    piles.push(await furnishPile(records, yard.id, pile, index + 1, nowMs, makeSecret));
  }
  const air = await enrol(records, yard.id, demoProbeId(0), 'Air, on the shed', nowMs, makeSecret);
  const longAgoMs = nowMs - 90 * dayMs;
  const sensor = {
    yardId: yard.id,
    pileId: null,
    position: 'air',
    depthMetres: null,
    fromMs: longAgoMs,
    toMs: null,
  } as const;
  await records.placements.create({
    ...sensor,
    channel: channelOf(air.probeId, 'air'),
    quantity: 'temperature',
  });
  await records.placements.create({
    ...sensor,
    channel: channelOf(air.probeId, 'humidity'),
    quantity: 'relative-humidity',
  });
  return { yardId: yard.id, ownerId: people[0]!.id, piles, air };
}

async function furnishPile(
  records: Records,
  yardId: YardId,
  pile: DemoPile,
  number: number,
  nowMs: number,
  makeSecret: MakeSecret,
): Promise<FurnishedPile> {
  const builtMs = Math.round(nowMs - pile.ageDays * dayMs);
  const { name, place, method } = pile;
  const { id: pileId } = await records.piles.create({ yardId, name, place, method, startedMs: builtMs });
  const probe = await enrol(records, yardId, demoProbeId(number), `Probe ${number}`, nowMs, makeSecret);
  for (const { channel, quantity, position, depthMetres } of pile.sensors) {
    const name = channelOf(probe.probeId, channel);
    await records.placements.create({
      yardId,
      pileId,
      channel: name,
      quantity,
      position,
      depthMetres,
      fromMs: builtMs,
      toMs: null,
    });
  }
  const battery = { quantity: 'battery', position: 'core', depthMetres: null } as const;
  await records.placements.create({
    yardId,
    pileId,
    channel: channelOf(probe.probeId, 'battery'),
    ...battery,
    fromMs: builtMs,
    toMs: null,
  });
  await writeJournal(records, pileId, pile, builtMs, nowMs);
  return { pile, pileId, ...probe, builtMs };
}

async function enrol(
  records: Records,
  yardId: YardId,
  probeId: string,
  label: string,
  nowMs: number,
  makeSecret: MakeSecret,
) {
  const { secret, hash } = makeSecret();
  await records.probes.create(
    { id: probeId, yardId, label, createdMs: nowMs, expectedIntervalSeconds: 300 },
    hash,
  );
  return { probeId, secret };
}

/** Invented serial under the documentation enterprise number (RFC 5612). */
const demoProbeId = (number: number) => `urn:dev:os:32473-${1000 + number}`;

const channelOf = (probeId: string, channel: string): ChannelName => `${probeId}_${channel}`;

async function writeJournal(
  records: Records,
  pileId: PileId,
  pile: DemoPile,
  builtMs: number,
  nowMs: number,
): Promise<void> {
  const entry = { pileId, by: null, recordedAtMs: nowMs };
  await records.journal.add({ ...entry, timeMs: builtMs, kind: 'built', value: null, note: pile.madeOf });
  for (const action of pile.scenario.interventions) {
    const timeMs = Math.round(builtMs + action.atSeconds * 1000);
    if (timeMs <= nowMs) await records.journal.add({ ...entry, timeMs, note: '', ...journalOf(action) });
  }
}

/** How a person would write down what the pile model was told they did. */
export function journalOf(action: Intervention): {
  readonly kind: JournalKind;
  readonly value: number | null;
} {
  if (action.kind === 'water') return { kind: 'watered', value: action.litres };
  const kinds = { turn: 'turned', open: 'opened', 'pull-channels': 'channels-pulled', add: 'added' } as const;
  return { kind: kinds[action.kind], value: null };
}
