import type { Alarm } from '../../../shared/alarms/alarm.ts';
import type { WallPile, WallView } from '../../../shared/api/types.ts';
import { worstFirst } from '../../../shared/api/wallOrder.ts';
import type { PileStatus } from '../../../shared/rules/status.ts';
import type { Pile, Placement } from '../../../shared/yard/yard.ts';
import type { House } from '../house.ts';
import { byPressingness, concerns, isStanding, isUnacknowledged, wallAlarm } from './alarmView.ts';
import { channelsOf, type LatestByChannel, lastGoodOf, newestMs, standingAt, yardAir } from './latest.ts';
import { yardRain } from './rain.ts';
import { coreSpark } from './spark.ts';
import { yardMap } from './yardMap.ts';

interface Gathered {
  readonly nowMs: number;
  readonly piles: readonly Pile[];
  readonly placements: readonly Placement[];
  readonly latest: LatestByChannel;
  readonly statuses: ReadonlyMap<string, PileStatus>;
  readonly alarms: readonly Alarm[];
}

/** Everything the wall shows, piles worst first; of the piles only those with `ids`, all of them for null. */
export async function wallView(
  house: House,
  yardId: string,
  ids: readonly string[] | null = null,
): Promise<WallView> {
  const yard = await house.records.yards.get(yardId);
  if (yard === null) throw new Error(`yard ${yardId} is gone`);
  const gathered = await gather(house, yardId);
  const { nowMs, latest, alarms } = gathered;
  const standing = standingAt(gathered.placements, nowMs);
  const asked = gathered.piles.filter(({ id }) => ids === null || ids.includes(id));
  const piles = await Promise.all(asked.map((pile) => wallPile(house, pile, gathered)));
  const map = await yardMap(house, yardId);
  return {
    yard: {
      id: yard.id,
      name: yard.name,
      timeZone: yard.timeZone,
      temperatureUnit: yard.temperatureUnit,
      air: yardAir(standing, latest),
      rain: await yardRain(house.series, standing, nowMs),
      ...(map.length > 0 ? { map } : {}),
    },
    nowMs,
    dataMs: newestMs(standing, latest),
    unacknowledgedCount: alarms.filter(isUnacknowledged).length,
    // An alarm about a probe hangs on the pile it stands in; what stands in none is the yard's.
    yardAlarms: alarms
      .filter((alarm) => !gathered.piles.some((pile) => concerns(alarm, pile.id, standing)))
      .filter((alarm) => alarm.subject.kind !== 'pile')
      .map((alarm) => wallAlarm(house, alarm)),
    piles: piles.sort(worstFirst),
  };
}

async function gather(house: House, yardId: string): Promise<Gathered> {
  const nowMs = house.clock.nowMs();
  const { piles, placements, statuses, alarms } = house.records;
  const [openPiles, placed, stored, listed] = await Promise.all([
    piles.list(yardId, { openAtMs: nowMs }),
    placements.list(yardId),
    statuses.forYard(yardId),
    alarms.list(yardId, { standingOnly: true }),
  ]);
  return {
    nowMs,
    piles: openPiles,
    placements: placed,
    latest: await house.series.latest(channelsOf(standingAt(placed, nowMs))),
    statuses: new Map(stored.map((status) => [status.pileId, status])),
    alarms: listed.filter(isStanding).sort(byPressingness),
  };
}

async function wallPile(house: House, pile: Pile, gathered: Gathered): Promise<WallPile> {
  const { nowMs, latest, statuses, alarms } = gathered;
  const ofPile = gathered.placements.filter((placement) => placement.pileId === pile.id);
  const standing = standingAt(ofPile, nowMs);
  const status = statuses.get(pile.id);
  return {
    id: pile.id,
    name: pile.name,
    place: pile.place,
    method: pile.method,
    startedMs: pile.startedMs,
    ...judged(status),
    points: standing
      .filter((placement) => placement.quantity === 'temperature')
      .map((placement) => sectionPoint(placement, latest)),
    alarms: alarms
      .filter((alarm) => concerns(alarm, pile.id, standing))
      .map((alarm) => wallAlarm(house, alarm)),
    spark: await coreSpark(house.series, ofPile, nowMs),
  };
}

type Judged = Pick<
  WallPile,
  'stage' | 'core' | 'trendCelsiusPerHour' | 'moisture' | 'sanitisationProgress' | 'assessedMs'
>;

function judged(status: PileStatus | undefined): Judged {
  const core = status?.coreCelsius ?? null;
  const coreTimeMs = status?.coreTimeMs ?? null;
  const moisture = status?.moistureFraction ?? null;
  return {
    stage: status?.stage ?? null,
    // A core value without its time would look live for ever: it is not shown.
    core: core === null || coreTimeMs === null ? null : { celsius: core, timeMs: coreTimeMs },
    trendCelsiusPerHour: status?.trendCelsiusPerHour ?? null,
    moisture: moisture === null ? null : { fraction: moisture, timeMs: status?.moistureTimeMs ?? null },
    sanitisationProgress: status?.sanitisationProgress ?? null,
    assessedMs: status?.assessedMs ?? null,
  };
}

function sectionPoint(placement: Placement, latest: LatestByChannel): WallPile['points'][number] {
  const reading = lastGoodOf(placement, latest);
  const { position, depthMetres } = placement;
  return { position, depthMetres, celsius: reading?.value ?? null, timeMs: reading?.timeMs ?? null };
}
