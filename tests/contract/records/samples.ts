import { type NewMessage, newId, type Probe, type Records } from '../../../services/records/port.ts';
import type { Alarm, AlarmTransition } from '../../../shared/alarms/alarm.ts';
import type { PileStatus } from '../../../shared/rules/status.ts';
import type { Person } from '../../../shared/yard/people.ts';
import type { Pile, Placement, Yard } from '../../../shared/yard/yard.ts';

export const startMs = Date.UTC(2026, 2, 1);
export const minuteMs = 60_000;

export interface SampleYard {
  readonly yard: Yard;
  readonly pile: Pile;
  readonly person: Person;
}

/** A yard with a pile and a keeper, the least that alarms and messages refer to. */
export async function sampleYard(records: Records, login = 'marta'): Promise<SampleYard> {
  const yard = await records.yards.create(yardValues);
  const pile = await records.piles.create(pileValues(yard.id));
  const person = await records.people.create(personValues(yard.id, login), null);
  return { yard, pile, person };
}

export const yardValues: Omit<Yard, 'id'> = {
  name: 'Gannet Row',
  timeZone: 'Europe/Dublin',
  temperatureUnit: 'C',
  altitudeMetres: 12.5,
};

export const pileValues = (yardId: string): Omit<Pile, 'id' | 'endedMs'> => ({
  yardId,
  name: 'Cage 1',
  place: 'east fence',
  method: 'static-cage',
  startedMs: startMs,
});

export const personValues = (yardId: string, login: string): Omit<Person, 'id'> => ({
  yardId,
  login,
  name: `Name of ${login}`,
  role: 'keeper',
  phone: '+441632960123',
  receivesTexts: true,
  textsFrom: 'medium',
  disabled: false,
  language: 'en',
});

export const placementValues = ({ yard, pile }: SampleYard, change: Partial<Placement> = {}) => ({
  yardId: yard.id,
  pileId: pile.id,
  channel: 'urn:dev:ow:28139bbb0b00001f_core',
  quantity: 'temperature' as const,
  position: 'core' as const,
  depthMetres: 0.6,
  fromMs: startMs,
  toMs: null,
  ...change,
});

export const sampleAlarm = ({ yard, pile }: SampleYard, change: Partial<Alarm> = {}): Alarm => ({
  id: newId(),
  yardId: yard.id,
  subject: { kind: 'pile', id: pile.id },
  condition: 'too-hot-ceiling',
  state: 'unacknowledged',
  priority: 'high',
  timing: { active: true, beyondSinceMs: startMs, backSinceMs: null },
  occurrence: 1,
  code: 'K7',
  activeSinceMs: startMs,
  returnedMs: null,
  acknowledgedMs: null,
  acknowledgedBy: null,
  shelvedUntilMs: null,
  hiddenReason: null,
  limitsVersion: 0,
  evidence: [
    { label: 'core', value: 72.4, unit: 'C' },
    { label: 'place', value: 'east fence', unit: '' },
  ],
  version: 1,
  ...change,
});

export const sampleTransition = (alarm: Alarm, change: Partial<AlarmTransition> = {}): AlarmTransition => ({
  alarmId: alarm.id,
  occurrence: alarm.occurrence,
  atMs: startMs,
  event: 'became-active',
  from: 'normal',
  to: 'unacknowledged',
  by: null,
  note: null,
  limitsVersion: 0,
  evidence: alarm.evidence,
  ...change,
});

export const sampleStatus = (pileId: string, change: Partial<PileStatus> = {}): PileStatus => ({
  pileId,
  assessedMs: startMs,
  stage: 'hot',
  coreCelsius: 64.25,
  coreTimeMs: startMs,
  trendCelsiusPerHour: -0.125,
  airCelsius: 8,
  moistureFraction: null,
  moistureTimeMs: null,
  hoursAbove55: 30.5,
  sanitisationProgress: 0.4,
  sanitisationOutcome: 'not-yet',
  peakCelsius: 66,
  ...change,
});

/** A text about no alarm in particular, due at once, with a key of its own. */
export const sampleMessage = (
  { yard, pile, person }: SampleYard,
  change: Partial<NewMessage> = {},
): NewMessage => ({
  yardId: yard.id,
  pileId: pile.id,
  alarmId: null,
  occurrence: null,
  idempotencyKey: newId(),
  personId: person.id,
  channel: 'sms-http',
  address: '+441632960123',
  text: 'east fence, Cage 1: too hot, core 72 C',
  priority: 'high',
  createdMs: startMs,
  notBeforeMs: startMs,
  expiresMs: startMs + 60 * minuteMs,
  answerLink: null,
  ...change,
});

export const probeValues = (
  yardId: string,
  id = 'urn:dev:ow:28139bbb0b00001f',
): Omit<Probe, 'revokedMs'> => ({
  id,
  yardId,
  label: 'long probe',
  createdMs: startMs,
  expectedIntervalSeconds: null,
});

/** A step with nothing in it but what is given. */
export const stepOf = (part: Partial<Parameters<Records['alarms']['commit']>[0]>) => ({
  alarms: [],
  transitions: [],
  messages: [],
  statuses: [],
  marks: [],
  ...part,
});

/** Puts messages in the outbox, one after another, and gives their ids in that order. */
export async function queue(
  records: Records,
  yardId: string,
  messages: readonly NewMessage[],
): Promise<string[]> {
  await records.alarms.commit(stepOf({ messages }));
  const stored = await records.messages.list(yardId, 1000);
  return messages.map(
    ({ idempotencyKey }) =>
      stored.find((message) => message.idempotencyKey === idempotencyKey)?.id ?? 'missing',
  );
}
