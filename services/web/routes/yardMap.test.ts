import { afterEach, beforeEach, expect, it } from 'vitest';
import type { WallView } from '../../../shared/api/types.ts';
import { openTestWeb, type TestWeb } from '../testing/openTestWeb.ts';

let web: TestWeb;
beforeEach(async () => {
  web = await openTestWeb();
});
afterEach(() => web.close());

const map = { places: [{ place: 'north wall', column: 2, row: 1 }] };

it('a keeper draws the map of the yard, and its walls get it', async () => {
  expect((await web.call('viewer', 'GET', '/api/yard/map')).json()).toEqual({ places: [] });
  expect((await web.call('keeper', 'PUT', '/api/yard/map', map)).json()).toEqual(map);
  const wall: WallView = (await web.call('wall', 'GET', '/api/wall')).json();
  expect(wall.yard.map).toEqual(map.places);
  expect((await web.records.audit.list(web.yard.id, 1))[0]).toMatchObject({ action: 'drew the map' });
});

it('a cell outside the map is refused by name', async () => {
  const outside = { places: [{ place: 'gate', column: 0, row: 41 }] };
  const { errors } = (await web.call('keeper', 'PUT', '/api/yard/map', outside)).json();
  expect(errors.map(({ pointer }: { pointer: string }) => pointer)).toContain('#/places/0/column');
});
