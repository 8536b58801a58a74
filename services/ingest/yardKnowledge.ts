import { handledSince, handlingKinds } from '../../shared/readings/handling.ts';
import { defaultSensors, type SensorDescription } from '../../shared/readings/sensorDescription.ts';
import type { JournalEntry } from '../../shared/yard/journal.ts';
import type { ChannelName, Placement, Quantity } from '../../shared/yard/yard.ts';
import type { Calibration, JournalStore, PlacementStore, Probe, ProbeStore } from '../records/port.ts';

/** What of the records ingest reads. */
export interface KnowledgeSource {
  readonly probes: Pick<ProbeStore, 'get' | 'calibrations'>;
  readonly placements: Pick<PlacementStore, 'list'>;
  readonly journal: Pick<JournalStore, 'forYard'>;
}

/** What the set-up says about one channel. */
export interface ChannelKnowledge {
  readonly calibration: Calibration | null;
  /** Null when the channel was never placed: then the unit decides. */
  readonly quantity: Quantity | null;
  /** SenML unit taken when the pack gives none. */
  readonly assumedUnit: string | null;
  readonly placement: Placement | null;
}

export interface YardKnowledge {
  channel(name: ChannelName, timeMs: number): ChannelKnowledge;
  /** Channels of the same quantity in the same pile at that time, and of those the ones at the very same spot. */
  companions(
    placement: Placement,
    timeMs: number,
  ): { readonly neighbours: ChannelName[]; readonly pairs: ChannelName[] };
  sensor(quantity: Quantity, calibration: Calibration | null): SensorDescription;
  /** Since when the journal of the pile a channel stands in excuses its jumps; null when it does not. */
  handledSince(channel: ChannelName, timeMs: number): number | null;
}

const dayMs = 86_400_000;
/** Jumps in readings that come later than this are judged as if nobody had handled the pile. */
const journalDays = 60;

const unitOfQuantity: Readonly<Record<Quantity, string | null>> = {
  temperature: 'Cel',
  moisture: '/',
  'relative-humidity': '%RH',
  battery: '%EL',
  voltage: 'V',
  other: null,
};

/** The set-up of one yard as it stood when it was read. Pure: everything is looked up in what was given. */
export function makeYardKnowledge(
  calibrations: readonly Calibration[],
  placements: readonly Placement[],
  journal: readonly JournalEntry[],
  futureToleranceMs: number,
): YardKnowledge {
  const calibrationOf = new Map(calibrations.map((calibration) => [calibration.channel, calibration]));
  const placementsOf = Map.groupBy(placements, ({ channel }) => channel);
  const journalOf = Map.groupBy(journal, ({ pileId }) => pileId);
  return {
    channel(name, timeMs) {
      const ofChannel = placementsOf.get(name) ?? [];
      const placement = ofChannel.find((each) => standsAt(each, timeMs)) ?? null;
      // Between two placements, or before the first, the sensor is still what it is.
      const quantity = (placement ?? ofChannel.at(-1))?.quantity ?? null;
      const assumedUnit = quantity === null ? null : unitOfQuantity[quantity];
      return { calibration: calibrationOf.get(name) ?? null, quantity, assumedUnit, placement };
    },
    companions(placement, timeMs) {
      const together = placements.filter(
        (other) =>
          other.channel !== placement.channel &&
          other.pileId === placement.pileId &&
          other.quantity === placement.quantity &&
          standsAt(other, timeMs),
      );
      const pairs = together.filter((other) => isSameSpot(other, placement));
      return {
        neighbours: together.map(({ channel }) => channel),
        pairs: pairs.map(({ channel }) => channel),
      };
    },
    sensor: (quantity, calibration) => ({
      ...defaultSensors[quantity],
      futureToleranceMs,
      calibrationDueMs: calibration?.dueMs ?? null,
    }),
    handledSince(channel, timeMs) {
      const pileId = placementsOf.get(channel)?.find((each) => standsAt(each, timeMs))?.pileId ?? null;
      const entries = pileId === null ? undefined : journalOf.get(pileId);
      return entries === undefined ? null : handledSince(entries, timeMs);
    },
  };
}

function standsAt({ fromMs, toMs }: Placement, timeMs: number): boolean {
  return fromMs <= timeMs && (toMs === null || timeMs < toMs);
}

/** Two sensors with no depth given may be anywhere along the stick, so only a stated, equal depth makes a pair. */
function isSameSpot(one: Placement, other: Placement): boolean {
  return one.position === other.position && one.depthMetres !== null && one.depthMetres === other.depthMetres;
}

/** What ingest knows about probes and yards, read again when it is older than `refreshMilliseconds`. */
export interface KnowledgeCache {
  probe(probeId: string): Promise<Probe | null>;
  yard(yardId: string): Promise<YardKnowledge>;
  /** Forgets everything, so that a change made in the app counts from the next message on. */
  forget(): void;
}

/** Ages are counted on the machine's own clock, not the yard's, which runs fast in the demo. */
export function createKnowledgeCache(
  source: KnowledgeSource,
  settings: {
    readonly futureToleranceMs: number;
    readonly refreshMilliseconds: number;
    readonly nowMs: () => number;
  },
): KnowledgeCache {
  const probes = new Map<string, Aged<Probe | null>>();
  const yards = new Map<string, Aged<YardKnowledge>>();
  const loadYard = async (yardId: string): Promise<YardKnowledge> => {
    const [calibrations, placements, journal] = await Promise.all([
      source.probes.calibrations(yardId),
      source.placements.list(yardId),
      source.journal.forYard(yardId, {
        kinds: handlingKinds,
        fromMs: settings.nowMs() - journalDays * dayMs,
      }),
    ]);
    return makeYardKnowledge(calibrations, placements, journal, settings.futureToleranceMs);
  };
  return {
    probe: (probeId) => fresh(probes, probeId, settings.refreshMilliseconds, (id) => source.probes.get(id)),
    yard: (yardId) => fresh(yards, yardId, settings.refreshMilliseconds, loadYard),
    forget() {
      probes.clear();
      yards.clear();
    },
  };
}

interface Aged<Value> {
  readonly value: Value;
  readonly atMs: number;
}
/** Names come from outside: a stream of invented ones must not fill the memory. */
const mostRemembered = 10_000;

async function fresh<Value>(
  remembered: Map<string, Aged<Value>>,
  key: string,
  longestMs: number,
  load: (key: string) => Promise<Value>,
): Promise<Value> {
  const known = remembered.get(key);
  if (known !== undefined && performance.now() - known.atMs < longestMs) return known.value;
  const value = await load(key);
  if (remembered.size >= mostRemembered) remembered.clear();
  remembered.set(key, { value, atMs: performance.now() });
  return value;
}
