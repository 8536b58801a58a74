import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { ProbeCredential } from '../../../shared/api/types.ts';
import type { FactsChange } from '../factsChanged.ts';
import { hashToken } from '../sign-in/tokens.ts';
import { openTestWeb, type TestWeb, testNowMs } from '../testing/openTestWeb.ts';
import { addPile, hourMs, reading } from '../testing/testData.ts';

let web: TestWeb;
const told: FactsChange[] = [];
beforeEach(async () => {
  told.length = 0;
  web = await openTestWeb({}, { onFactsChanged: (change) => told.push(change) });
});
afterEach(() => web.close());

const enrol = async (body: object = { label: 'blue lid' }): Promise<ProbeCredential> =>
  (await web.call('owner', 'POST', '/api/probes', body)).json();
const path = (id: string, rest = '') => `/api/probes/${encodeURIComponent(id)}${rest}`;

describe('a probe', () => {
  it('is enrolled with a secret of 256 bits that is shown once and stored as a hash', async () => {
    const { probe, secret, mqtt } = await enrol();
    expect(Buffer.from(secret, 'base64url')).toHaveLength(32);
    expect(await web.records.probes.secretHash(probe.id)).toBe(hashToken(secret));
    expect(mqtt).toMatchObject({ user: probe.id, topic: `tilth/${web.yard.id}/${probe.id}/readings` });
    expect(mqtt.exampleCommand).toContain(`-u ${probe.id} -P ${secret} -t ${mqtt.topic}`);
    expect((await web.call('keeper', 'GET', '/api/probes')).body).not.toContain(secret);
    expect(JSON.stringify(await web.records.audit.list(web.yard.id, 10))).not.toContain(secret);
  });

  it('without a name of its own gets one that can be no maker’s', async () => {
    const { probe } = await enrol();
    const firstByte = Number.parseInt(/^urn:dev:mac:([0-9a-f]{2})[0-9a-f]{14}$/.exec(probe.id)![1]!, 16);
    expect(firstByte & 0b11).toBe(0b10);
  });

  it.each([
    'urn:dev:mac:123',
    'thermometer',
    'urn:dev:ow:28139BBB0B00001F',
    'urn:dev:mac:0024befffe804ff1_core',
    '+/#',
  ])('is refused under the name %s', async (id) => {
    const response = await web.call('owner', 'POST', '/api/probes', { id, label: 'x' });
    expect([response.statusCode, response.json().errors[0].pointer]).toEqual([400, '#/id']);
  });

  it('cannot take the name of another, not even of one in another yard', async () => {
    const id = 'urn:dev:ow:28139bbb0b00001f';
    await enrol({ id, label: 'first' });
    const again = await web.call('owner', 'POST', '/api/probes', { id, label: 'second' });
    expect(again.json()).toMatchObject({ status: 409, errors: [{ pointer: '#/id' }] });
  });

  it('gets a new secret in place of the old one, and those who hold connections are told', async () => {
    const { probe, secret } = await enrol();
    const fresh: ProbeCredential = (await web.call('owner', 'POST', path(probe.id, '/secret'))).json();
    expect(fresh.secret).not.toBe(secret);
    expect(await web.records.probes.secretHash(probe.id)).toBe(hashToken(fresh.secret));
    expect(told).toEqual([{ probeId: probe.id }, { probeId: probe.id }]);
  });

  it('is told an address it can call when the broker listens on all of them', async () => {
    const wide = await openTestWeb({ mqtt: { host: '0.0.0.0', port: 8883, tls: true } });
    const request = { method: 'POST', url: '/api/probes', payload: { label: 'x' } } as const;
    const headers = { host: '192.0.2.7:8477', 'x-tilth-request': '1' };
    const { mqtt } = (await wide.inject({ ...request, headers, cookies: wide.cookies.owner })).json();
    expect(mqtt.exampleCommand).toMatch(/^mosquitto_pub -h 192\.0\.2\.7 -p 8883 --tls-use-os-certs /);
    await wide.close();
  });

  it('that is revoked may not publish any more', async () => {
    const { probe } = await enrol();
    expect((await web.call('owner', 'POST', path(probe.id, '/revoke'))).json().revokedMs).toBe(testNowMs);
    expect(await web.records.probes.secretHash(probe.id)).toBeNull();
  });

  it('shows what it has sent, its own and no namesake’s', async () => {
    const { probe } = await enrol({ id: 'urn:dev:os:32473-12', label: 'twelve' });
    await web.series.append([
      reading('urn:dev:os:32473-12_core', testNowMs, 61),
      reading('urn:dev:os:32473-123_core', testNowMs, 20),
    ]);
    const view = (await web.call('keeper', 'GET', path(probe.id))).json();
    expect(view.channels).toEqual([
      {
        channel: 'urn:dev:os:32473-12_core',
        latest: { timeMs: testNowMs, value: 61, quality: 'good', reason: null },
      },
    ]);
  });
});

describe('a placement', () => {
  const channel = 'urn:dev:ow:28139bbb0b00001f_core';
  const place = (change: object) =>
    web.call('keeper', 'POST', '/api/placements', {
      ...{ channel, quantity: 'temperature', position: 'core', fromMs: testNowMs - hourMs, pileId: null },
      ...change,
    });

  it('is refused while the channel stands elsewhere, and allowed once that has ended', async () => {
    const [a, b] = [await addPile(web, { name: 'A' }), await addPile(web, { name: 'B' })];
    const first = (await place({ pileId: a.id })).json();
    expect((await place({ pileId: b.id })).json()).toMatchObject({
      status: 409,
      errors: [{ pointer: '#/fromMs' }],
    });
    const end = await web.call('keeper', 'POST', `/api/placements/${first.id}/end`, {
      toMs: testNowMs - 60_000,
    });
    expect(end.json().toMs).toBe(testNowMs - 60_000);
    expect((await place({ pileId: b.id, fromMs: testNowMs - 60_000 })).statusCode).toBe(200);
    expect(told).toEqual([{ pileId: a.id }, { pileId: a.id }, { pileId: b.id }]);
  });

  it('is refused in a pile that is not there, at no known position, or before it began', async () => {
    expect((await place({ pileId: 'none' })).statusCode).toBe(404);
    expect((await place({ position: 'middle' })).json().errors[0].pointer).toBe('#/position');
    const { id, fromMs } = (await place({})).json();
    const end = await web.call('keeper', 'POST', `/api/placements/${id}/end`, { toMs: fromMs - 1 });
    expect(end.json().errors[0].pointer).toBe('#/toMs');
  });
});

describe('a calibration', () => {
  it('is taken for a channel of this yard only', async () => {
    const { probe } = await enrol();
    const calibration = { gain: 1, offset: -0.4, calibratedMs: testNowMs, dueMs: null };
    const own = { ...calibration, channel: `${probe.id}_core` };
    expect((await web.call('keeper', 'PUT', '/api/calibrations', own)).statusCode).toBe(200);
    expect((await web.call('viewer', 'GET', '/api/calibrations')).json()).toEqual([own]);
    const fields = { name: 'B', timeZone: 'UTC', temperatureUnit: 'C', altitudeMetres: 0 } as const;
    const { id: yardId } = await web.records.yards.create(fields);
    const theirs = { id: 'urn:dev:ow:28139bbb0b00001f', label: 'x', expectedIntervalSeconds: null };
    await web.records.probes.create({ ...theirs, yardId, createdMs: 0 }, hashToken('s'));
    const strange = { ...calibration, channel: `${theirs.id}_core` };
    const refused = await web.call('keeper', 'PUT', '/api/calibrations', strange);
    expect(refused.json().errors[0].pointer).toBe('#/channel');
  });
});
