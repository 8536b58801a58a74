import { setImmediate as nextTurn } from 'node:timers/promises';
import type { DutyPlan } from '../../shared/messages/dutyPlan.ts';
import { type Wordings, wordingsOf } from '../../shared/messages/wordings.ts';
import { withHands } from '../../shared/rules/byHand.ts';
import type { PlacedChannel } from '../../shared/rules/channelTrack.ts';
import type { PileLimits } from '../../shared/rules/pileSubject.ts';
import type { PileFacts } from '../../shared/rules/pileWindow.ts';
import type { ProbeFacts } from '../../shared/rules/probeWindow.ts';
import type { JournalEntry } from '../../shared/yard/journal.ts';
import type { Person } from '../../shared/yard/people.ts';
import type { ChannelName, Pile, PileId, Placement, ProbeId, Yard } from '../../shared/yard/yard.ts';
import type { ContactWay, Probe, Records } from '../records/port.ts';
import { isSameList, keepEqual, sharedTexts } from './keepEqual.ts';
import { probeOfChannel } from './probeOfChannel.ts';

/** What the records say of one yard, as far as judgement needs it, read at one time. */
export interface YardFacts {
  readonly yard: Yard;
  readonly people: readonly Person[];
  readonly ways: readonly ContactWay[];
  /** Who is told, and when. */
  readonly duty: DutyPlan;
  /** What texts are made of, by language. */
  readonly wordings: Wordings;
  /** Open ones. */
  readonly piles: readonly Pile[];
  readonly pilesById: ReadonlyMap<PileId, Pile>;
  readonly placements: readonly Placement[];
  readonly placementsOf: ReadonlyMap<ChannelName, readonly Placement[]>;
  /** By pile; the yard's own air under null. */
  readonly placementsIn: ReadonlyMap<PileId | null, readonly Placement[]>;
  readonly placementsBy: ReadonlyMap<ProbeId | null, readonly Placement[]>;
  /** In service. */
  readonly probes: ReadonlyMap<ProbeId, Probe>;
  /** Of open piles, in time order. */
  readonly journalOf: ReadonlyMap<PileId, readonly JournalEntry[]>;
  /** Of piles whose limits somebody changed. */
  readonly limitsOf: ReadonlyMap<PileId, PileLimits>;
  readonly readMs: number;
}

const defaultLimits: PileLimits = { version: 0, overrides: {} };

/**
 * Entries are added, and taken back within a day of being recorded (`takeBackHours` of the API): later looks read what was
 * recorded lately. Twice that day covers clocks that disagree.
 */
const journalOverlapMs = 2 * 86_400_000;

/** Reads a yard's facts; what has not changed since `before` stays the very object it was. */
export async function readYardFacts(
  records: Records,
  yard: Yard,
  nowMs: number,
  before: YardFacts | null = null,
): Promise<YardFacts> {
  const recordedFromMs = before === null ? Number.NEGATIVE_INFINITY : before.readMs - journalOverlapMs;
  const recorded = before === null ? {} : { recordedFromMs };
  const [ways, { plan: duty }, { overrides }] = await Promise.all([
    records.ways.list(yard.id),
    records.duty.current(yard.id),
    records.wordings.current(yard.id),
  ]);
  const same = sharedTexts();
  // One after another, with a turn of the event loop between: each holds it up for as long as a large yard takes.
  const people = await afterwards(records.people.list(yard.id));
  const openPiles = await afterwards(records.piles.list(yard.id, { openAtMs: nowMs }));
  const piles = keepEqual(before?.piles ?? [], openPiles.map(same));
  const allPlacements = await afterwards(records.placements.list(yard.id));
  const placements = await afterwards(keepEqual(before?.placements ?? [], allPlacements.map(same)));
  const probes = await afterwards(records.probes.list(yard.id));
  const entries = await afterwards(records.journal.forYard(yard.id, recorded));
  const limits = await afterwards(records.limits.forYard(yard.id));
  const inService = probes.filter((probe) => probe.revokedMs === null).map(same);
  const known = keepEqual([...(before?.probes.values() ?? [])], inService);
  const byId = new Map(known.map((probe) => [probe.id, probe]));
  return {
    yard,
    people,
    ways,
    duty,
    wordings: wordingsOf(overrides),
    piles,
    pilesById: new Map(piles.map((pile) => [pile.id, pile])),
    placements,
    placementsOf: Map.groupBy(placements, ({ channel }) => channel),
    placementsIn: Map.groupBy(placements, ({ pileId }) => pileId),
    placementsBy: Map.groupBy(placements, ({ channel }) => probeOfChannel(channel, byId)),
    probes: byId,
    journalOf: journalsOf(piles, before, entries, recordedFromMs),
    limitsOf: new Map(limits.map(({ pileId, version, overrides }) => [pileId, { version, overrides }])),
    readMs: nowMs,
  };
}

/** The answer, once the event loop has turned. */
async function afterwards<Answer>(asked: Answer | Promise<Answer>): Promise<Answer> {
  const answer = await asked;
  await nextTurn();
  return answer;
}

/** Each open pile's journal with the entries just read; one in which nothing changed is the same array as before. */
function journalsOf(
  piles: readonly Pile[],
  before: YardFacts | null,
  entries: readonly JournalEntry[],
  recordedFromMs: number,
): Map<PileId, readonly JournalEntry[]> {
  const read = Map.groupBy(entries, ({ pileId }) => pileId);
  const journals = new Map<PileId, readonly JournalEntry[]>();
  for (const { id } of piles) {
    const known = before?.journalOf.get(id) ?? [];
    const found = new Set(read.get(id)?.map((entry) => entry.id));
    const isThere = (entry: JournalEntry) => entry.recordedAtMs < recordedFromMs || found.has(entry.id);
    const held = known.every(isThere) ? known : known.filter(isThere);
    const ids = new Set(held.map((entry) => entry.id));
    const fresh = (read.get(id) ?? []).filter((entry) => !ids.has(entry.id));
    const all = fresh.length === 0 ? held : [...held, ...fresh].sort((a, b) => a.timeMs - b.timeMs);
    if (all.length > 0) journals.set(id, all);
  }
  return journals;
}

const noEntries: readonly JournalEntry[] = [];

/** The yard's own air sensors: they stand in no pile and count for all. */
export function yardAir(facts: YardFacts): readonly Placement[] {
  return (facts.placementsIn.get(null) ?? []).filter((placement) => placement.position === 'air');
}

/** What judgement needs of one pile. */
export function pileFactsOf(facts: YardFacts, pile: Pile, defaultIntervalSeconds: number): PileFacts {
  const own = facts.placementsIn.get(pile.id) ?? [];
  const placed = [...own, ...yardAir(facts)].map((placement) =>
    placedChannel(facts, placement, defaultIntervalSeconds),
  );
  return withHands({ pile, placed, journal: facts.journalOf.get(pile.id) ?? noEntries });
}

export function pileLimitsOf(facts: YardFacts, pileId: PileId): PileLimits {
  return facts.limitsOf.get(pileId) ?? defaultLimits;
}

/** What is different about a pile: `moved` calls for its window to be built again, `changed` for its facts to be set. */
export function differenceOf(before: YardFacts, after: YardFacts, pile: Pile): 'moved' | 'changed' | null {
  const isKnown = before.pilesById.get(pile.id) === pile;
  if (!isKnown || !isSameList(placedIn(before, pile), placedIn(after, pile))) return 'moved';
  if (isTakenBack(before, after, pile)) return 'moved';
  const isSame =
    before.journalOf.get(pile.id) === after.journalOf.get(pile.id) &&
    pileLimitsOf(before, pile.id).version === pileLimitsOf(after, pile.id).version &&
    placedIn(after, pile).every((placement) => isSameProbe(before, after, placement));
  return isSame ? null : 'changed';
}

/** An entry is no longer in the journal: what was judged by it, a reading by hand above all, is judged again without. */
function isTakenBack(before: YardFacts, after: YardFacts, { id }: Pile): boolean {
  const left = after.journalOf.get(id) ?? noEntries;
  const known = before.journalOf.get(id) ?? noEntries;
  if (known === left) return false;
  const ids = new Set(left.map((entry) => entry.id));
  return known.some((entry) => !ids.has(entry.id));
}

function placedIn(facts: YardFacts, pile: Pile): readonly Placement[] {
  return [...(facts.placementsIn.get(pile.id) ?? []), ...yardAir(facts)];
}

function isSameProbe(before: YardFacts, after: YardFacts, { channel }: Placement): boolean {
  const id = probeOfChannel(channel, after.probes);
  return id === null || before.probes.get(id) === after.probes.get(id);
}

/** Whether a probe, or what its channels stand in, is not what it was. */
export function isProbeChanged(before: YardFacts, after: YardFacts, id: ProbeId): boolean {
  const places = after.placementsBy.get(id) ?? [];
  return (
    before.probes.get(id) !== after.probes.get(id) ||
    !isSameList(before.placementsBy.get(id), places) ||
    places.some(
      ({ pileId }) => pileId !== null && before.pilesById.get(pileId) !== after.pilesById.get(pileId),
    )
  );
}

/** Placed channels by placement: the yard's air is one object for all piles. */
const placedOf = new WeakMap<Placement, PlacedChannel>();

/** A reading speaks for four of its probe's usual gaps, and never for less than an hour: a pile changes over hours. */
function placedChannel(
  facts: YardFacts,
  placement: Placement,
  defaultIntervalSeconds: number,
): PlacedChannel {
  const probeId = probeOfChannel(placement.channel, facts.probes);
  const probe = probeId === null ? undefined : facts.probes.get(probeId);
  const seconds = probe?.expectedIntervalSeconds ?? defaultIntervalSeconds;
  const maxAgeMinutes = Math.max(60, (4 * seconds) / 60);
  const known = placedOf.get(placement);
  if (known?.maxAgeMinutes === maxAgeMinutes) return known;
  const placed = { placement, maxAgeMinutes };
  placedOf.set(placement, placed);
  return placed;
}

/** What judgement needs of one probe: where its channels stand. */
export function probeFactsOf(facts: YardFacts, probe: Probe, defaultIntervalSeconds: number): ProbeFacts {
  const places = (facts.placementsBy.get(probe.id) ?? [])
    .filter((placement) => placement.pileId === null || facts.pilesById.has(placement.pileId))
    .map((placement) => {
      const pile = placement.pileId === null ? undefined : facts.pilesById.get(placement.pileId);
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
