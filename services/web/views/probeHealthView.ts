import type { Alarm } from '../../../shared/alarms/alarm.ts';
import type { ProbeHealthView } from '../../../shared/api/types.ts';
import { guessQuantity } from '../../../shared/readings/guessQuantity.ts';
import { probeOwnsName } from '../../../shared/senml/channelName.ts';
import type { Placement, Quantity } from '../../../shared/yard/yard.ts';
import type { Calibration, Probe } from '../../records/port.ts';
import type { House } from '../house.ts';
import { isStanding } from './alarmView.ts';
import { type LatestByChannel, standingAt } from './latest.ts';
import { conditionName } from './names.ts';

const dayMs = 86_400_000;

interface Gathered {
  readonly house: House;
  readonly nowMs: number;
  readonly channels: readonly string[];
  readonly latest: LatestByChannel;
  readonly standing: readonly Placement[];
  readonly pileNames: ReadonlyMap<string, string>;
  readonly calibrations: ReadonlyMap<string, Calibration>;
  readonly alarms: readonly Alarm[];
}

/** How every probe of a yard is. */
export async function probeHealthViews(house: House, yardId: string): Promise<ProbeHealthView[]> {
  const nowMs = house.clock.nowMs();
  const { probes, placements, piles, alarms } = house.records;
  const [list, placed, open, calibrations, standingAlarms, known] = await Promise.all([
    probes.list(yardId),
    placements.list(yardId),
    piles.list(yardId),
    probes.calibrations(yardId),
    alarms.list(yardId, { standingOnly: true }),
    house.series.channels(),
  ]);
  const channels = known.filter((name) => list.some(({ id }) => probeOwnsName(id, name))).sort();
  const gathered: Gathered = {
    ...{ house, nowMs, channels },
    latest: await house.series.latest(channels),
    standing: standingAt(placed, nowMs),
    pileNames: new Map(open.map(({ id, name }) => [id, name])),
    calibrations: new Map(calibrations.map((one) => [one.channel, one])),
    alarms: standingAlarms.filter(isStanding),
  };
  return Promise.all(list.map((probe) => probeHealth(gathered, probe)));
}

async function probeHealth(gathered: Gathered, probe: Probe): Promise<ProbeHealthView> {
  const { house, nowMs, latest } = gathered;
  const channels = gathered.channels.filter((name) => probeOwnsName(probe.id, name));
  const standing = gathered.standing.filter(({ channel }) => channels.includes(channel));
  const times = channels.flatMap((channel) => latest.get(channel)?.last.timeMs ?? []);
  const contact = house.probeDesk?.contactOf(probe.id) ?? null;
  const alarms = await alarmsOf(gathered, probe);
  const facts = {
    heardMs: times.length === 0 ? null : Math.min(nowMs, Math.max(...times)),
    ...calibrationOf(gathered, channels, standing),
    alarms,
  };
  return {
    id: probe.id,
    label: probe.label,
    revokedMs: probe.revokedMs,
    piles: pilesOf(gathered, standing),
    connected: house.probeDesk?.isConnected(probe.id) ?? null,
    expectedIntervalSeconds: probe.expectedIntervalSeconds,
    battery: batteryOf(gathered, channels, standing),
    signalDbm: signalOf(gathered, channels),
    clockAheadMs: contact?.clockAheadMs ?? null,
    ...(await lastDay(house, channels, nowMs)),
    ...facts,
    next: nextOf(probe, facts, standing.length > 0),
  };
}

type Facts = Pick<ProbeHealthView, 'heardMs' | 'alarms' | 'uncalibrated' | 'calibrationDueMs'>;

function nextOf(probe: Probe, facts: Facts, isPlaced: boolean): ProbeHealthView['next'] {
  if (probe.revokedMs !== null) return 'revoked';
  if (facts.alarms.length > 0) return 'alarm';
  if (facts.heardMs === null) return 'wait-first-message';
  if (!isPlaced) return 'place';
  return facts.uncalibrated > 0 ? 'calibrate' : 'nothing';
}

function pilesOf({ pileNames }: Gathered, standing: readonly Placement[]): string[] {
  const names = standing.flatMap(({ pileId }) => (pileId === null ? [] : (pileNames.get(pileId) ?? [])));
  return [...new Set(names)];
}

async function alarmsOf({ house, alarms }: Gathered, probe: Probe): Promise<ProbeHealthView['alarms']> {
  const own = alarms.filter(({ subject }) => subject.kind === 'probe' && subject.id === probe.id);
  const views = own.map(async (alarm) => ({
    condition: alarm.condition,
    name: conditionName(house, alarm.condition),
    firstAction: (await house.wordsFor(alarm))?.firstAction ?? null,
  }));
  return Promise.all(views);
}

/** As placed; a battery stands nowhere, so its name must do (as in `rules/conditions/probeBatteryLow.ts`). */
function quantityOf(channel: string, standing: readonly Placement[]): Quantity {
  const placed = standing.find((one) => one.channel === channel)?.quantity;
  return placed ?? guessQuantity(leafOf(channel));
}

const leafOf = (channel: string): string => channel.slice(channel.search(/[_:][^_:]*$/) + 1);

function batteryOf(
  { latest }: Gathered,
  channels: readonly string[],
  standing: readonly Placement[],
): ProbeHealthView['battery'] {
  for (const channel of channels) {
    const quantity = quantityOf(channel, standing);
    const reading = latest.get(channel)?.lastGood;
    if ((quantity !== 'battery' && quantity !== 'voltage') || !reading) continue;
    // A share is at most 1, and no cell in use is at 1 V or less.
    const unit = quantity === 'battery' && reading.value <= 1 ? 'fraction' : 'V';
    return { value: reading.value, unit, timeMs: reading.timeMs };
  }
  return null;
}

/** SenML has dBW for signal strength and no dBm of its own in plain packs; radios are spoken of in dBm. */
const dbmAboveDbw = 30;

function signalOf({ latest }: Gathered, channels: readonly string[]): number | null {
  const channel = channels.find((name) => /^(signal|rssi)$/i.test(leafOf(name)));
  const reading = channel === undefined ? undefined : latest.get(channel)?.last;
  return reading === undefined ? null : reading.value + dbmAboveDbw;
}

function calibrationOf(
  { calibrations }: Gathered,
  channels: readonly string[],
  standing: readonly Placement[],
): Pick<ProbeHealthView, 'calibrationDueMs' | 'uncalibrated'> {
  const temperatures = channels.filter((channel) => quantityOf(channel, standing) === 'temperature');
  const due = channels.flatMap((channel) => calibrations.get(channel)?.dueMs ?? []);
  return {
    calibrationDueMs: due.length === 0 ? null : Math.min(...due),
    uncalibrated: temperatures.filter((channel) => !calibrations.has(channel)).length,
  };
}

async function lastDay(
  house: House,
  channels: readonly string[],
  nowMs: number,
): Promise<Pick<ProbeHealthView, 'readingsLastDay' | 'doubtedLastDay'>> {
  const days = channels.map((channel) => house.series.rollups(channel, 'hour', nowMs - dayMs, nowMs));
  const hours = (await Promise.all(days)).flat();
  const readingsLastDay = hours.reduce((sum, { countAll }) => sum + countAll, 0);
  const good = hours.reduce((sum, { count }) => sum + count, 0);
  return { readingsLastDay, doubtedLastDay: readingsLastDay - good };
}
