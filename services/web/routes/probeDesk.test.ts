import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { ProbeHealthView } from '../../../shared/api/types.ts';
import type { ProbeDeskPort } from '../port.ts';
import { openTestWeb, type TestWeb, testNowMs } from '../testing/openTestWeb.ts';
import { addPile, addPlacement, alarmOf, reading } from '../testing/testData.ts';

const probeId = 'urn:dev:mac:0024befffe804ff1';
const minuteMs = 60_000;
const refused: { name: string; reason: string; atMs: number; count: number }[] = [];
const desk: ProbeDeskPort = {
  isConnected: (id) => id === probeId,
  contactOf: (id) =>
    id === probeId
      ? {
          receivedMs: testNowMs - 5000,
          clockAheadMs: 2000,
          quantities: new Map([[`${probeId}_stick`, 'moisture'] as const]),
        }
      : null,
  refusedSignIns: () => refused,
};

let web: TestWeb;
beforeEach(async () => {
  refused.splice(0);
  web = await openTestWeb({}, { probeDesk: desk });
  const probe = { id: probeId, yardId: web.yard.id, label: 'Stick 1', createdMs: testNowMs };
  await web.records.probes.create({ ...probe, expectedIntervalSeconds: null }, 'x');
});
afterEach(() => web.close());

const get = async (path: string) => (await web.call('keeper', 'GET', path)).json();
const contact = () => get(`/api/probes/${probeId}/contact`);

describe('while a probe is set up', () => {
  it('it is seen to be signed in and heard, with its clock', async () => {
    expect(await contact()).toEqual({
      ...{ nowMs: testNowMs, connected: true, receivedMs: testNowMs - 5000, clockAheadMs: 2000 },
      ...{ refusedSignIn: null, strangers: [], setAside: [] },
    });
  });

  it('its refused sign-in is told, and a name that is no probe; another yard and last week are not', async () => {
    const other = await web.records.yards.create({
      ...{ name: 'Other', timeZone: 'UTC', temperatureUnit: 'C', altitudeMetres: 0 },
    });
    const theirs = 'urn:dev:mac:0024befffe804ff2';
    const probe = { id: theirs, yardId: other.id, label: 'x', createdMs: 1, expectedIntervalSeconds: null };
    await web.records.probes.create(probe, 'y');
    const note = (name: string, atMs: number) => refused.push({ name, reason: 'wrong', atMs, count: 3 });
    note(probeId, testNowMs - minuteMs);
    note('urn:dev:mac:oops', testNowMs - minuteMs);
    note(theirs, testNowMs - minuteMs);
    note('long-ago', testNowMs - 20 * minuteMs);
    expect(await contact()).toMatchObject({
      refusedSignIn: { count: 3, atMs: testNowMs - minuteMs },
      strangers: [{ name: 'urn:dev:mac:oops' }],
    });
  });

  it('what it sent in vain is shown with the reason, only its own and only lately', async () => {
    const item = { topic: 't', payloadStart: Buffer.from('{}'), payloadBytes: 2 };
    const add = (probe: string, reason: string, agoMs: number) =>
      web.records.quarantine.add({ ...item, probe, reason, receivedMs: testNowMs - agoMs });
    await add(probeId, 'no unit given', minuteMs);
    await add('urn:dev:mac:other', 'not mine', minuteMs);
    await add(probeId, 'yesterday', 24 * 60 * minuteMs);
    expect((await contact()).setAside).toMatchObject([{ reason: 'no unit given', payloadText: '{}' }]);
  });

  it('its last minutes come raw and calibrated, with what each channel measures', async () => {
    const at = (channel: string, agoMs: number, value: number) =>
      reading(`${probeId}_${channel}`, testNowMs - agoMs, value, { rawValue: value + 1 });
    await web.series.append([
      ...[at('core', 30 * minuteMs, 9), at('core', minuteMs, 20), at('core', 0, 21)],
      ...[at('stick', 0, 0.5), at('battery', 0, 0.9)],
    ]);
    const { channels } = await get(`/api/channels/recent?minutes=5&probeId=${probeId}`);
    expect(channels).toMatchObject([
      { channel: `${probeId}_battery`, quantity: 'battery' },
      {
        channel: `${probeId}_core`,
        quantity: 'temperature',
        points: [{ value: 20, rawValue: 21 }, { value: 21 }],
      },
      { channel: `${probeId}_stick`, quantity: 'moisture' },
    ]);
    expect((await get('/api/channels/recent?minutes=60')).channels[1].points).toHaveLength(3);
  });

  it('another yard learns nothing of it', async () => {
    for (const path of [
      '/api/probes/urn:dev:mac:none/contact',
      '/api/channels/recent?probeId=urn:dev:mac:none',
    ])
      expect((await get(path)).code).toBe('not-found');
    expect((await web.call('viewer', 'GET', '/api/probe-health')).statusCode).toBe(403);
  });
});

describe('the health of a probe', () => {
  const health = async (): Promise<ProbeHealthView> => (await get('/api/probe-health'))[0];

  it('says what to do next, step by step', async () => {
    expect(await health()).toMatchObject({ next: 'wait-first-message', heardMs: null, piles: [] });
    const channel = `${probeId}_core`;
    await web.series.append([reading(channel, testNowMs - minuteMs, 55)]);
    expect(await health()).toMatchObject({ next: 'place', heardMs: testNowMs - minuteMs, uncalibrated: 1 });
    const pile = await addPile(web);
    await addPlacement(web, { pileId: pile.id, channel });
    expect(await health()).toMatchObject({ next: 'calibrate', piles: ['Heap 4'] });
    const dueMs = testNowMs + 1;
    await web.records.probes.saveCalibration({ channel, gain: 1, offset: 0, calibratedMs: 1, dueMs });
    expect(await health()).toMatchObject({ next: 'nothing', uncalibrated: 0, calibrationDueMs: dueMs });
    const subject = { kind: 'probe', id: probeId } as const;
    const alarm = alarmOf(web, pile, { subject, condition: 'probe-stuck' });
    await web.records.alarms.commit({
      ...{ alarms: [alarm], transitions: [], messages: [], statuses: [], marks: [] },
    });
    expect(await health()).toMatchObject({
      next: 'alarm',
      alarms: [{ condition: 'probe-stuck', firstAction: 'Open the channels.' }],
    });
    await web.records.probes.revoke(probeId, testNowMs);
    expect(await health()).toMatchObject({ next: 'revoked' });
  });

  it('counts what is not believed, and reads battery and signal', async () => {
    const at = (leaf: string, minutes: number, value: number, quality: 'good' | 'bad' = 'good') =>
      reading(`${probeId}_${leaf}`, testNowMs - minutes * minuteMs, value, {
        quality,
        reason: quality === 'bad' ? 'did-not-answer' : null,
      });
    await web.series.append([
      ...[at('core', 90, 50), at('core', 80, -127, 'bad'), at('core', 70, 51)],
      // Before the last day: not counted.
      at('core', 2 * 24 * 60, -127, 'bad'),
      ...[at('battery', 70, 0.83), at('signal', 70, -97)],
    ]);
    expect(await health()).toMatchObject({
      ...{ readingsLastDay: 5, doubtedLastDay: 1, connected: true, clockAheadMs: 2000 },
      ...{ battery: { value: 0.83, unit: 'fraction' }, signalDbm: -67 },
    });
  });
});
