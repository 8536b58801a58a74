import { afterEach, describe, expect, it } from 'vitest';
import { readOpenMetrics } from '../../../tests/helpers/readOpenMetrics.ts';
import type { OperationsPort, ReadinessCheck } from '../port.ts';
import { openTestWeb, type TestWeb } from '../testing/openTestWeb.ts';

let web: TestWeb;
afterEach(() => web.close());

const token = 'a-token-of-a-monitor';
const open = async (checks: ReadinessCheck[] = [], metricsToken: string | null = null) => {
  const waiting = {
    name: 'tilth_waiting',
    type: 'gauge',
    unit: null,
    help: 'x',
    samples: [{ value: 3 }],
  } as const;
  const operations: OperationsPort = { readiness: async () => checks, metrics: async () => [waiting] };
  web = await openTestWeb({ metricsToken }, { operations });
};
const ask = (url: string, remoteAddress = '127.0.0.1', headers: Record<string, string> = {}) =>
  web.inject({ method: 'GET', url, remoteAddress, headers });

describe('health', () => {
  it('says that the program lives, to anybody, even while a store does not answer', async () => {
    await open();
    web.series.latest = () => Promise.reject(new Error('away'));
    expect((await ask('/healthz', '192.0.2.9')).json()).toEqual({ ok: true });
  });
});

describe('readiness', () => {
  const good = { name: 'series', isReady: true, text: 'the store of readings answers' };
  const bad = { name: 'records', isReady: false, text: 'the records database cannot be read' };

  it('is yes when every part is ready', async () => {
    await open([good]);
    const answer = await ask('/readyz', '192.0.2.9');
    expect([answer.statusCode, answer.json().ready]).toEqual([200, true]);
  });

  it('is no when one part is not, and says which and why', async () => {
    await open([good, bad]);
    const answer = await ask('/readyz');
    expect(answer.statusCode).toBe(503);
    expect(answer.json()).toMatchObject({
      ready: false,
      checks: [{ ready: true }, { name: 'records', text: bad.text }],
    });
  });
});

describe('metrics', () => {
  it('are OpenMetrics text for a program on this machine', async () => {
    await open();
    const answer = await ask('/metrics');
    expect(answer.headers['content-type']).toBe('application/openmetrics-text; version=1.0.0; charset=utf-8');
    expect(readOpenMetrics(answer.body)).toMatchObject(
      new Map([
        ['tilth_waiting', 3],
        ['tilth_web_open_screens', 0],
      ]),
    );
    expect((await ask('/metrics', '::ffff:127.0.0.1')).statusCode).toBe(200);
  });

  it('are not there for anybody else until a token is configured', async () => {
    await open();
    for (const headers of [{}, { authorization: 'Bearer null' }, { authorization: 'Bearer ' }])
      expect((await ask('/metrics', '192.0.2.9', headers)).statusCode).toBe(404);
  });

  it('are told elsewhere to who shows the token, and to nobody who does not', async () => {
    await open([], token);
    expect((await ask('/metrics', '192.0.2.9')).statusCode).toBe(401);
    expect((await ask('/metrics', '192.0.2.9', { authorization: `Bearer ${token}x` })).statusCode).toBe(401);
    expect((await ask('/metrics', '192.0.2.9', { authorization: `Bearer ${token}` })).statusCode).toBe(200);
  });

  it('do not take who comes through a reverse proxy on this machine for a program on it', async () => {
    await open();
    for (const header of ['x-forwarded-for', 'forwarded', 'x-real-ip', 'via'])
      expect((await ask('/metrics', '127.0.0.1', { [header]: '127.0.0.1' })).statusCode).toBe(404);
  });
});

describe('every request', () => {
  it('has an id of its own, told in a header; a failure names it', async () => {
    await open();
    const [one, other] = [
      await ask('/healthz'),
      await ask('/healthz', undefined, { 'x-request-id': 'mine' }),
    ];
    expect(one.headers['x-request-id']).toMatch(/^[0-9a-f-]{36}$/);
    expect(other.headers['x-request-id']).not.toBe(one.headers['x-request-id']);
    expect(other.headers['x-request-id']).not.toBe('mine');
    web.records.piles.list = () => Promise.reject(new Error('disk gone at /secret'));
    const failed = await web.call('viewer', 'GET', '/api/piles');
    expect(failed.json().detail).toContain(failed.headers['x-request-id']);
    expect(failed.body).not.toContain('secret');
  });
});
