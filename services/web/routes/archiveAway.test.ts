import { afterEach, beforeEach, expect, it } from 'vitest';
import { ArchiveFault } from '../../series/archive.ts';
import type { SeriesStore } from '../../series/port.ts';
import { openTestWeb, type TestWeb, testNowMs } from '../testing/openTestWeb.ts';
import { addPile, addPlacement, hourMs } from '../testing/testData.ts';

/** A store whose past lies in an InfluxDB that cannot be reached; what is here answers as always. */
const away = (): never => {
  throw new ArchiveFault('away', 'InfluxDB at 192.0.2.7 cannot be reached');
};
const series: SeriesStore = {
  append: async () => ({ stored: 0, duplicates: 0, lastSequence: 0 }),
  range: async () => away(),
  rollups: async () => away(),
  latest: async () => new Map(),
  since: async () => [],
  channels: async () => [],
  trim: async () => 0,
  close: async () => {},
};

let web: TestWeb;
let path: string;
beforeEach(async () => {
  web = await openTestWeb({}, { series });
  const pile = await addPile(web);
  await addPlacement(web, { pileId: pile.id });
  path = `/api/piles/${pile.id}`;
});
afterEach(() => web.close());

it('a curve that InfluxDB would have to answer is refused as "not ready", in words, never cut short', async () => {
  const query = `fromMs=${testNowMs - 100 * hourMs}&toMs=${testNowMs}&step=raw`;
  const response = await web.call('viewer', 'GET', `${path}/series?${query}`);
  expect(response.statusCode).toBe(503);
  expect(response.headers['content-type']).toContain('application/problem+json');
  expect(response.json()).toMatchObject({
    code: 'not-ready',
    detail: 'InfluxDB at 192.0.2.7 cannot be reached',
  });
});
