import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openTestWeb, type TestWeb, testNowMs } from '../testing/openTestWeb.ts';
import { addPile } from '../testing/testData.ts';

let web: TestWeb;
let pileId: string;
beforeAll(async () => {
  web = await openTestWeb();
  pileId = (await addPile(web)).id;
});
afterAll(() => web.close());

/** A keeper's browser writes into the journal with these headers. */
async function write(headers: Record<string, string>) {
  const { statusCode } = await web.inject({
    method: 'POST',
    url: `/api/piles/${pileId}/journal`,
    cookies: web.cookies.keeper,
    headers,
    payload: { kind: 'turned', timeMs: testNowMs },
  });
  return statusCode;
}

const own = { 'x-tilth-request': '1' };

describe('a change asked for with somebody’s cookie', () => {
  it('is taken from our own page, by the address people know and by the machine’s own', async () => {
    const site = { 'sec-fetch-site': 'same-origin' };
    expect(await write({ ...own, ...site, origin: 'http://yard.example' })).toBe(200);
    expect(await write({ ...own, ...site, origin: 'http://192.0.2.7:8477', host: '192.0.2.7:8477' })).toBe(
      200,
    );
  });

  it('is refused without our own header, which a form of another site cannot send', async () => {
    expect(await write({})).toBe(403);
    expect(await write({ origin: 'http://yard.example' })).toBe(403);
  });

  it.each(['cross-site', 'same-site', 'none'])('is refused when the browser calls it %s', async (site) => {
    expect(await write({ ...own, 'sec-fetch-site': site })).toBe(403);
  });

  it('is refused from any other origin, whatever it looks like', async () => {
    const lookalikes = [
      'null',
      'http://yard.example.evil.test',
      'http://yard.example@evil.test',
      'https://evil.test',
    ];
    const origins = fc.oneof(fc.webUrl(), fc.constantFrom(...lookalikes), fc.string({ maxLength: 40 }));
    const others = origins.filter((origin) => URL.parse(origin)?.host !== 'yard.example');
    await fc.assert(
      fc.asyncProperty(others, async (origin) => {
        const printable = origin.replace(/[^\x21-\x7e]/g, '');
        expect(await write({ ...own, origin: printable === '' ? 'null' : printable })).toBe(403);
      }),
      { numRuns: 60 },
    );
  });

  it('is not even looked at as a form or as text: only JSON is', async () => {
    const { statusCode } = await web.inject({
      method: 'POST',
      url: `/api/piles/${pileId}/journal`,
      cookies: web.cookies.keeper,
      headers: { ...own, 'content-type': 'text/plain' },
      payload: '{"kind":"turned","timeMs":1}',
    });
    expect(statusCode).toBe(415);
  });

  it('never happens on GET', async () => {
    const before = (await web.records.journal.list(pileId)).length;
    for (const { route } of web.app.accessList()) {
      const [method, url] = route.split(' ') as ['GET', string];
      if (method !== 'GET' || url === '/api/live') continue;
      await web.call('owner', 'GET', url.replace(':pileId', pileId).replaceAll(/:[A-Za-z]+/g, 'none-such'));
    }
    expect((await web.records.journal.list(pileId)).length).toBe(before);
    expect(web.rules.events).toEqual([]);
  });
});
