import type { PileRecord } from '../../../shared/compost/forecast/fitPile.ts';
import { hottestHours } from '../../../shared/compost/outlook/hottestHours.ts';
import type { PileDesign } from '../../../shared/compost/planner/pileDesign.ts';
import type { Sample } from '../../../shared/readings/reading.ts';
import type { JournalEntry, JournalKind } from '../../../shared/yard/journal.ts';
import type { Pile, Placement } from '../../../shared/yard/yard.ts';
import type { House } from '../house.ts';

const hourMs = 3_600_000;
/** Where nobody measures the air: a mild day. */
const unknownAirCelsius = 12;
/** After these a core may jump. */
const disturbing: readonly JournalKind[] = [
  'turned',
  'watered',
  'added',
  'opened',
  'moved',
  'channels-pulled',
];

/** What was measured of a pile hour by hour and done to it, as the fit wants it. */
export async function pileRecord(
  house: House,
  pile: Pile,
  placements: readonly Placement[],
  design: PileDesign | null,
): Promise<PileRecord> {
  const untilMs = pile.endedMs ?? house.clock.nowMs();
  const span = { fromMs: pile.startedMs, toMs: untilMs };
  const own = placements.filter(({ pileId }) => pileId === pile.id);
  const hoursOf = (chosen: readonly Placement[]) =>
    Promise.all(chosen.map((placement) => hourly(house, placement, span)));
  const [core, air, moisture, journal] = await Promise.all([
    hoursOf(own.filter(({ quantity, position }) => quantity === 'temperature' && position === 'core')),
    hoursOf(placements.filter(isAir)),
    hoursOf(own.filter(({ quantity }) => quantity === 'moisture')),
    house.records.journal.list(pile.id),
  ]);
  const outside = meanByHour(air);
  return {
    core: hottestHours(core),
    air: outside,
    meanAirCelsius: meanOf(outside) ?? unknownAirCelsius,
    moisture: meanByHour(moisture),
    disturbedMs: journal.filter(({ kind }) => disturbing.includes(kind)).map(({ timeMs }) => timeMs),
    addedWater: watering(journal, design?.builtKilograms ?? null),
    ...(design?.material == null ? {} : { material: design.material }),
    untilMs,
  };
}

const isAir = ({ pileId, quantity, position }: Placement) =>
  pileId === null && quantity === 'temperature' && position === 'air';

/** Hourly means of good readings while the channel stood there, each at the middle of its hour. */
async function hourly(
  house: House,
  placement: Placement,
  span: { readonly fromMs: number; readonly toMs: number },
): Promise<Sample[]> {
  const fromMs = Math.max(span.fromMs, placement.fromMs);
  const toMs = Math.min(span.toMs, placement.toMs ?? span.toMs);
  if (toMs <= fromMs) return [];
  const rollups = await house.series.rollups(placement.channel, 'hour', fromMs, toMs);
  return rollups
    .filter(({ count }) => count > 0)
    .map(({ startMs, mean }) => ({ timeMs: startMs + hourMs / 2, value: mean }));
}

function meanByHour(channels: readonly (readonly Sample[])[]): Sample[] {
  const sums = new Map<number, { sum: number; count: number }>();
  for (const { timeMs, value } of channels.flat()) {
    const { sum, count } = sums.get(timeMs) ?? { sum: 0, count: 0 };
    sums.set(timeMs, { sum: sum + value, count: count + 1 });
  }
  return [...sums]
    .map(([timeMs, { sum, count }]) => ({ timeMs, value: sum / count }))
    .sort((one, other) => one.timeMs - other.timeMs);
}

function meanOf(samples: readonly Sample[]): number | null {
  if (samples.length === 0) return null;
  return samples.reduce((sum, { value }) => sum + value, 0) / samples.length;
}

/** Litres over the mass as built; unknown where the pile was not planned here. */
function watering(journal: readonly JournalEntry[], builtKilograms: number | null) {
  if (builtKilograms === null || builtKilograms <= 0) return [];
  return journal.flatMap(({ kind, timeMs, value }) =>
    kind === 'watered' && value !== null ? [{ timeMs, kgPerBuiltKg: value / builtKilograms }] : [],
  );
}
