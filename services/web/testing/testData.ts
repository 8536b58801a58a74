import type { Alarm } from '../../../shared/alarms/alarm.ts';
import type { Reading } from '../../../shared/readings/reading.ts';
import type { PileStatus } from '../../../shared/rules/status.ts';
import type { Pile, Placement } from '../../../shared/yard/yard.ts';
import { type TestWeb, testNowMs } from './openTestWeb.ts';

export const hourMs = 3_600_000;

export function addPile(web: TestWeb, change: Partial<Pile> = {}): Promise<Pile> {
  return web.records.piles.create({
    yardId: web.yard.id,
    name: 'Heap 4',
    place: 'bay 3',
    method: 'static-cage',
    startedMs: testNowMs - 10 * 24 * hourMs,
    ...change,
  });
}

export function addPlacement(web: TestWeb, change: Partial<Placement> = {}): Promise<Placement> {
  return web.records.placements.create({
    yardId: web.yard.id,
    pileId: null,
    channel: 'urn:dev:mac:0024befffe804ff1_core',
    quantity: 'temperature',
    position: 'core',
    depthMetres: 0.5,
    fromMs: testNowMs - 9 * 24 * hourMs,
    toMs: null,
    ...change,
  });
}

export function reading(
  channel: string,
  timeMs: number,
  value: number,
  change: Partial<Reading> = {},
): Reading {
  return { channel, timeMs, rawValue: value, value, quality: 'good', reason: null, ...change };
}

export function alarmOf(web: TestWeb, pile: Pile, change: Partial<Alarm> = {}): Alarm {
  return {
    id: 'alarm-1',
    yardId: web.yard.id,
    subject: { kind: 'pile', id: pile.id },
    condition: 'too-hot-ceiling',
    state: 'unacknowledged',
    priority: 'high',
    timing: { active: true, beyondSinceMs: testNowMs - hourMs, backSinceMs: null },
    occurrence: 1,
    code: 'K7',
    activeSinceMs: testNowMs - hourMs,
    returnedMs: null,
    acknowledgedMs: null,
    acknowledgedBy: null,
    shelvedUntilMs: null,
    hiddenReason: null,
    limitsVersion: 0,
    evidence: [{ label: 'core', value: 72.4, unit: 'C' }],
    version: 1,
    ...change,
  };
}

export async function addAlarm(web: TestWeb, pile: Pile, change: Partial<Alarm> = {}): Promise<Alarm> {
  const alarm = alarmOf(web, pile, change);
  const none = { transitions: [], messages: [], statuses: [], marks: [] };
  await web.records.alarms.commit({ ...none, alarms: [alarm] });
  return alarm;
}

export function statusOf(pile: Pile, change: Partial<PileStatus> = {}): PileStatus {
  return {
    pileId: pile.id,
    assessedMs: testNowMs,
    stage: 'hot',
    coreCelsius: 64.2,
    coreTimeMs: testNowMs - 60_000,
    trendCelsiusPerHour: 0.4,
    airCelsius: 8,
    moistureFraction: 0.58,
    moistureTimeMs: testNowMs - 120_000,
    hoursAbove55: 70,
    sanitisationProgress: 0.97,
    sanitisationOutcome: 'not-yet',
    peakCelsius: 66,
    ...change,
  };
}
