import { HttpError } from '@influxdata/influxdb-client';
import { describe, expect, it } from 'vitest';
import { faultOf } from './faults.ts';

const answered = (status: number, body = '', headers = {}) =>
  faultOf(new HttpError(status, 'words', body, null, null, undefined, headers), 'InfluxDB at somewhere');

describe('faultOf', () => {
  it.each([
    [302, 'away'],
    [400, 'refused'],
    [401, 'not-permitted'],
    [403, 'not-permitted'],
    [404, 'not-found'],
    [413, 'refused'],
    [422, 'refused'],
    [429, 'busy'],
    [500, 'busy'],
    [503, 'busy'],
  ])('takes %i for %s', (status, kind) => {
    expect(answered(status).kind).toBe(kind);
  });

  it('takes a full disk for a trouble of the server and not of the lines, whatever the status', () => {
    // As InfluxDB 1.6 says it (tests/faults/diskFull.test.ts).
    const body = '{"error":"partial write: write /x/_series/07/0000: no space left on device dropped=2000"}';
    expect(answered(400, body).kind).toBe('busy');
  });

  it('says what the server said, of 1.x and of 2.x', () => {
    expect(answered(400, '{"error":"unable to parse"}').message).toMatch(
      /somewhere answered 400: unable to parse/,
    );
    expect(answered(422, '{"code":"x","message":"too old"}').message).toMatch(/422: too old/);
    expect(answered(502, '<html>'.padEnd(5_000, '.')).message.length).toBeLessThan(400);
    expect(answered(500).message).toMatch(/500: words/);
  });

  it('reads Retry-After in seconds', () => {
    expect(answered(429, '', { 'retry-after': '30' }).retryAfterMs).toBe(30_000);
    expect(answered(429).retryAfterMs).toBeNull();
    expect(answered(429, '', { 'retry-after': 'Wed, 25 Nov 2026 10:00:00 GMT' }).retryAfterMs).toBeNull();
  });

  it('tells an answer that came too late from nobody there', () => {
    expect(faultOf(new DOMException('late', 'TimeoutError'), 'x')).toMatchObject({
      kind: 'away',
      tookTooLong: true,
    });
    const refused = faultOf(new AggregateError([new Error('connect ECONNREFUSED')]), 'x');
    expect(refused).toMatchObject({ kind: 'away', tookTooLong: false });
    expect(refused.message).toMatch(/ECONNREFUSED/);
  });
});
