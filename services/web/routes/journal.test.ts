import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { Pile } from '../../../shared/yard/yard.ts';
import { exif, frame, jfif, jpeg, scan, tables } from '../../../tests/helpers/jpegParts.ts';
import { openTestWeb, type TestWeb, testNowMs } from '../testing/openTestWeb.ts';
import { addPile, hourMs } from '../testing/testData.ts';

let web: TestWeb;
let pile: Pile;
beforeAll(async () => {
  web = await openTestWeb();
});
afterAll(() => web.close());
beforeEach(async () => {
  web.clock.ms = testNowMs;
  pile = await addPile(web);
});

const entry = { kind: 'watered', timeMs: testNowMs, value: 20 };
const pressKey = 'press-0123456789abcdef';
const write = (body: object = entry, who: 'keeper' | 'owner' = 'keeper') =>
  web.call(who, 'POST', `/api/piles/${pile.id}/journal`, body);
const listed = async () => (await web.call('viewer', 'GET', `/api/piles/${pile.id}/journal`)).json();
const takeBack = (id: string, who: 'keeper' | 'owner' = 'keeper') =>
  web.call(who, 'POST', `/api/journal/${id}/take-back`);
const photo = jpeg(jfif, exif, ...tables, frame(640, 480), scan);
const putPhoto = (id: string, payload: Buffer, type = 'image/jpeg', who: 'keeper' | 'owner' = 'keeper') =>
  web.inject({
    method: 'PUT',
    url: `/api/journal/${id}/photo`,
    cookies: web.cookies[who],
    headers: { 'x-tilth-request': '1', 'content-type': type },
    payload,
  });

describe('a press sent twice over a bad link', () => {
  it('is one entry', async () => {
    const [first, again] = [await write({ ...entry, pressKey }), await write({ ...entry, pressKey })];
    expect(again.json()).toEqual(first.json());
    expect(await listed()).toHaveLength(1);
  });

  it('counts for each pile by itself, and presses without a key are each their own', async () => {
    await write({ ...entry, pressKey });
    const other = await addPile(web);
    await web.call('keeper', 'POST', `/api/piles/${other.id}/journal`, { ...entry, pressKey });
    expect((await web.call('viewer', 'GET', `/api/piles/${other.id}/journal`)).json()).toHaveLength(1);
    await write();
    await write();
    expect(await listed()).toHaveLength(3);
  });

  it('does not bring back what was taken back meanwhile', async () => {
    const { id } = (await write({ ...entry, pressKey })).json();
    await takeBack(id);
    expect((await write({ ...entry, pressKey })).json().id).toBe(id);
    expect(await listed()).toEqual([]);
  });

  it('must have a key that can be told from others', async () => {
    const { statusCode, body } = await write({ ...entry, pressKey: 'short' });
    expect(statusCode).toBe(400);
    expect(body).toMatch(/pressKey/);
  });
});

describe('a wrong press is taken back', () => {
  it('by whoever made it: listed no more, told to judgement, in the trail of changes', async () => {
    const written = (await write()).json();
    expect(written.takeBackUntilMs).toBe(testNowMs + 24 * hourMs);
    expect((await takeBack(written.id)).statusCode).toBe(200);
    expect(await listed()).toEqual([]);
    const trail = await web.records.audit.list(web.yard.id, 5);
    expect(trail.map(({ action, target }) => [action, target])).toContainEqual([
      'journal.taken-back',
      pile.id,
    ]);
    expect((await takeBack(written.id)).statusCode).toBe(404);
  });

  it('but not by another, nor a day later, nor that the pile was built', async () => {
    const { id } = (await write()).json();
    expect((await takeBack(id, 'owner')).statusCode).toBe(409);
    web.clock.ms = testNowMs + 25 * hourMs;
    expect((await takeBack(id)).json().detail).toMatch(/within 24 hours/);
    web.clock.ms = testNowMs;
    const built = (await write({ kind: 'built', timeMs: testNowMs })).json();
    expect(built.takeBackUntilMs).toBeNull();
    expect((await takeBack(built.id)).statusCode).toBe(409);
    expect(await listed()).toHaveLength(2);
  });
});

describe('a hand reading', () => {
  it('says how deep it was taken', async () => {
    const reading = { kind: 'hand-reading', timeMs: testNowMs, value: 61.5, depthMetres: 0.4 };
    expect((await write(reading)).json()).toMatchObject({ value: 61.5, depthMetres: 0.4 });
    expect(await listed()).toMatchObject([{ depthMetres: 0.4 }]);
    expect((await write({ ...reading, depthMetres: 9 })).body).toMatch(/depthMetres/);
    expect((await write({ ...entry, depthMetres: 0.4 })).body).toMatch(/no depth for watered/);
  });
});

describe('a photo', () => {
  const note = { kind: 'note', timeMs: testNowMs, note: 'white threads at the edge' };

  it('is kept with its entry, without place and time, and shown to who is signed in', async () => {
    const { id } = (await write(note)).json();
    const put = await putPhoto(id, photo);
    expect(put.json()).toMatchObject({ id, photo: { widthPixels: 640, heightPixels: 480 } });
    const shown = await web.call('viewer', 'GET', `/api/journal/${id}/photo`);
    expect(shown.headers).toMatchObject({
      'content-type': 'image/jpeg',
      'x-content-type-options': 'nosniff',
      'cache-control': expect.stringMatching(/^private/),
    });
    expect(shown.rawPayload).toEqual(jpeg(jfif, ...tables, frame(640, 480), scan));
    expect((await putPhoto(id, jpeg(...tables, frame(8, 8), scan))).json().photo.widthPixels).toBe(640);
  });

  it('is refused when it is none, too large, of another type, another’s, or of no entry', async () => {
    const { id } = (await write(note)).json();
    const answers = [
      await putPhoto(id, Buffer.from('<svg onload=alert(1)>')),
      await putPhoto(id, jpeg(...tables, frame(4000, 3000), scan)),
      await putPhoto(id, Buffer.alloc(800_000, 1)),
      await putPhoto(id, photo, 'image/png'),
      await putPhoto(id, photo, 'image/jpeg', 'owner'),
      await putPhoto('none', photo),
    ];
    expect(answers.map(({ statusCode }) => statusCode)).toEqual([400, 400, 413, 415, 409, 404]);
    expect(answers[1]!.json().detail).toMatch(/4000 x 3000 pixels; at most 1600/);
    expect((await web.call('viewer', 'GET', `/api/journal/${id}/photo`)).statusCode).toBe(404);
  });
});
