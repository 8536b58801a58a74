import { expect, test } from 'vitest';
import { RecordsError, VersionConflict } from '../../../services/records/port.ts';
import { minuteMs, pileValues, sampleStatus, sampleYard, startMs, stepOf, yardValues } from './samples.ts';
import { type FreshDatabase, useRecords } from './useRecords.ts';

export function describeYards(fresh: FreshDatabase): void {
  const at = useRecords(fresh);

  test('a yard comes back as it was written, fractions and all, and changes by field', async () => {
    const yard = await at.records.yards.create(yardValues);
    expect(yard).toEqual({ ...yardValues, id: expect.stringMatching(/^[0-9a-z]{12}$/) });
    expect(await at.records.yards.get(yard.id)).toEqual(yard);
    expect(await at.records.yards.update(yard.id, { name: 'Row' })).toEqual({ ...yard, name: 'Row' });
    expect(await at.records.yards.update(yard.id, {})).toEqual({ ...yard, name: 'Row' });
    expect(await at.records.yards.get('nowhere')).toBeNull();
    await expect(at.records.yards.update('nowhere', { name: 'x' })).rejects.toThrow(RecordsError);
  });

  test('an id may be chosen once', async () => {
    await at.records.yards.create({ ...yardValues, id: 'gannet' });
    await expect(at.records.yards.create({ ...yardValues, id: 'gannet' })).rejects.toMatchObject({
      field: 'id',
    });
  });

  test('a pile belongs to a yard that exists', async () => {
    await expect(at.records.piles.create(pileValues('nowhere'))).rejects.toMatchObject({ field: 'yardId' });
  });

  test('a pile keeps how large it was built and of what, to the last figure, and refuses what cannot be', async () => {
    const { yard } = await sampleYard(at.records);
    const size = { volumeM3: 1.1, leastSideMetres: 0.4583, wetKg: 500.5 };
    const build = { ...size, carbonToNitrogen: 28.25, moistureFraction: 0.65, freeAirSpaceFraction: null };
    const pile = await at.records.piles.create({ ...pileValues(yard.id), build });
    expect(pile.build).toEqual(build);
    expect((await at.records.piles.get(pile.id))?.build).toEqual(build);
    const changed = { ...build, freeAirSpaceFraction: 0.4 };
    expect((await at.records.piles.update(pile.id, { build: changed })).build).toEqual(changed);
    expect(await at.records.piles.update(pile.id, { build: null })).not.toHaveProperty('build');
    const wrong = at.records.piles.create({ ...pileValues(yard.id), build: { ...build, volumeM3: -1 } });
    await expect(wrong).rejects.toMatchObject({ field: 'build' });
  });

  test('a pile is open until it ends, the end itself excluded', async () => {
    const { yard, pile } = await sampleYard(at.records);
    const endedMs = startMs + 90 * 24 * 60 * minuteMs;
    expect(await at.records.piles.end(pile.id, endedMs)).toEqual({ ...pile, endedMs });
    const openAt = async (openAtMs: number) => (await at.records.piles.list(yard.id, { openAtMs })).length;
    expect([await openAt(endedMs - 1), await openAt(endedMs)]).toEqual([1, 0]);
    expect(await at.records.piles.list(yard.id)).toHaveLength(1);
  });

  test('a pile cannot end before it was started', async () => {
    const { pile } = await sampleYard(at.records);
    await expect(at.records.piles.end(pile.id, startMs - 1)).rejects.toMatchObject({ field: 'endedMs' });
    await expect(at.records.piles.end('none', startMs)).rejects.toMatchObject({ field: 'pileId' });
    expect(await at.records.piles.update(pile.id, { place: 'bay 3' })).toEqual({ ...pile, place: 'bay 3' });
  });

  test('limits start as the method’s defaults and grow by one version at each save', async () => {
    const { pile } = await sampleYard(at.records);
    const defaults = await at.records.limits.current(pile.id);
    expect(defaults).toEqual({
      pileId: pile.id,
      version: 0,
      overrides: {},
      reason: '',
      by: null,
      savedMs: startMs,
    });
    const change = {
      pileId: pile.id,
      reason: 'dry spring',
      by: 'marta',
      savedMs: startMs + 1,
      expectedVersion: 0,
    };
    const overrides = { 'too-hot-ceiling': { limitCelsius: 68.5, enabled: true, note: null } };
    const saved = await at.records.limits.save({ ...change, overrides });
    expect(saved).toMatchObject({ version: 1, overrides });
    expect(await at.records.limits.current(pile.id)).toEqual(saved);
    await at.records.limits.save({ ...change, overrides: {}, expectedVersion: 1 });
    expect((await at.records.limits.history(pile.id)).map(({ version }) => version)).toEqual([2, 1]);
  });

  test('limits tuned on an old version are refused and not stored', async () => {
    const { pile } = await sampleYard(at.records);
    const change = { pileId: pile.id, overrides: {}, reason: '', by: null, savedMs: startMs };
    await at.records.limits.save({ ...change, expectedVersion: 0 });
    await expect(at.records.limits.save({ ...change, expectedVersion: 0 })).rejects.toThrow(VersionConflict);
    await expect(at.records.limits.save({ ...change, expectedVersion: 5 })).rejects.toThrow(VersionConflict);
    expect(await at.records.limits.history(pile.id)).toHaveLength(1);
  });

  test('limits that could not be read back are refused', async () => {
    const { pile } = await sampleYard(at.records);
    const broken = { 'too-hot-ceiling': { limitCelsius: Number.NaN } };
    const change = { pileId: pile.id, reason: '', by: null, savedMs: startMs, expectedVersion: 0 };
    await expect(at.records.limits.save({ ...change, overrides: broken })).rejects.toMatchObject({
      field: 'overrides',
    });
    await expect(at.records.limits.current('none')).rejects.toMatchObject({ field: 'pileId' });
  });

  test('the journal is in order of time and cut to a range', async () => {
    const { pile } = await sampleYard(at.records);
    const add = (timeMs: number, kind: 'built' | 'watered') =>
      at.records.journal.add({
        pileId: pile.id,
        timeMs,
        kind,
        value: 40.5,
        note: 'ok',
        by: null,
        recordedAtMs: startMs,
      });
    const watered = await add(startMs + 20, 'watered');
    const built = await add(startMs, 'built');
    expect(await at.records.journal.list(pile.id)).toEqual([built, watered]);
    expect(await at.records.journal.list(pile.id, { fromMs: startMs + 1, toMs: startMs + 21 })).toEqual([
      watered,
    ]);
    expect(await at.records.journal.list(pile.id, { toMs: startMs + 20 })).toEqual([built]);
    await expect(at.records.journal.add({ ...built, pileId: 'none' })).rejects.toMatchObject({
      field: 'pileId',
    });
  });

  test('a press stored twice is one entry, and one taken back is listed no more', async () => {
    const { pile } = await sampleYard(at.records);
    const pressed = { pileId: pile.id, timeMs: startMs, kind: 'hand-reading', value: 61.5 } as const;
    const whole = { ...pressed, note: '', by: 'marta', recordedAtMs: startMs, depthMetres: 0.45 };
    const entry = await at.records.journal.add({ ...whole, pressKey: 'key-1' });
    expect(entry).toMatchObject({ value: 61.5, depthMetres: 0.45 });
    expect(await at.records.journal.add({ ...whole, value: 9, pressKey: 'key-1' })).toEqual(entry);
    const other = await at.records.journal.add({ ...whole, timeMs: startMs + 1, pressKey: 'key-2' });
    expect(await at.records.journal.list(pile.id)).toEqual([entry, other]);
    expect(await at.records.journal.takeBack(entry.id, startMs + 5)).toEqual(entry);
    expect(await at.records.journal.list(pile.id)).toEqual([other]);
    expect(await at.records.journal.forYard(pile.yardId)).toEqual([other]);
    expect(await at.records.journal.get(entry.id)).toBeNull();
    await expect(at.records.journal.takeBack(entry.id, startMs + 6)).rejects.toMatchObject({
      field: 'entryId',
    });
    expect((await at.records.journal.add({ ...whole, pressKey: 'key-1' })).id).toBe(entry.id);
    expect(await at.records.journal.list(pile.id)).toEqual([other]);
  });

  test('the first photo of an entry stays, byte for byte', async () => {
    const { pile } = await sampleYard(at.records);
    const note = { pileId: pile.id, timeMs: startMs, kind: 'note', value: null, note: 'threads' } as const;
    const { id } = await at.records.journal.add({ ...note, by: null, recordedAtMs: startMs });
    expect(await at.records.journal.photo(id)).toBeNull();
    const photo = { widthPixels: 4, heightPixels: 3, jpeg: Uint8Array.of(255, 216, 0, 217) };
    const size = { widthPixels: 4, heightPixels: 3 };
    expect(await at.records.journal.savePhoto(id, photo)).toMatchObject({ id, photo: size });
    await at.records.journal.savePhoto(id, { ...photo, widthPixels: 9, jpeg: Uint8Array.of(1) });
    expect(await at.records.journal.photo(id)).toEqual(photo.jpeg);
    expect(await at.records.journal.list(pile.id)).toMatchObject([{ photo: size }]);
    await expect(at.records.journal.savePhoto('none', photo)).rejects.toMatchObject({ field: 'entryId' });
  });

  test('how a pile was planned is kept, and replaced', async () => {
    const { pile } = await sampleYard(at.records);
    expect(await at.records.designs.get(pile.id)).toBeNull();
    await at.records.designs.save(pile.id, '{"a":1}', startMs);
    await at.records.designs.save(pile.id, '{"a":2}', startMs + 1);
    expect(await at.records.designs.get(pile.id)).toBe('{"a":2}');
    await expect(at.records.designs.save('none', '{}', startMs)).rejects.toMatchObject({ field: 'pileId' });
  });

  test('the journal of a whole yard, from a time on and of some kinds only', async () => {
    const { yard, pile } = await sampleYard(at.records);
    const other = await sampleYard(at.records, 'ines');
    const wrote = (pileId: string, kind: 'opened' | 'note', timeMs: number) =>
      at.records.journal.add({ pileId, kind, timeMs, value: null, note: '', by: null, recordedAtMs: timeMs });
    const second = await at.records.piles.create(pileValues(yard.id));
    const late = await wrote(second.id, 'opened', startMs + 20);
    const early = await wrote(pile.id, 'opened', startMs + 10);
    const note = await wrote(pile.id, 'note', startMs + 15);
    await wrote(other.pile.id, 'opened', startMs + 12);
    expect(await at.records.journal.forYard(yard.id)).toEqual([early, note, late]);
    expect(await at.records.journal.forYard(yard.id, { kinds: ['opened'] })).toEqual([early, late]);
    expect(await at.records.journal.forYard(yard.id, { fromMs: startMs + 11 })).toEqual([note, late]);
    expect(await at.records.journal.forYard(yard.id, { recordedFromMs: startMs + 16 })).toEqual([late]);
  });

  test('limits in force of a whole yard: of each pile that has any, the last saved', async () => {
    const { yard, pile } = await sampleYard(at.records);
    await at.records.piles.create(pileValues(yard.id));
    const change = { pileId: pile.id, overrides: {}, reason: 'dry', by: null, savedMs: startMs };
    await at.records.limits.save({ ...change, expectedVersion: 0 });
    const last = await at.records.limits.save({ ...change, expectedVersion: 1 });
    expect(await at.records.limits.forYard(yard.id)).toEqual([last]);
  });

  test('statuses of many piles come in one step; of two for one pile the last counts', async () => {
    const { yard, pile } = await sampleYard(at.records);
    const others = [];
    for (let number = 0; number < 3; number++)
      others.push(await at.records.piles.create(pileValues(yard.id)));
    const ids = [pile.id, ...others.map(({ id }) => id)].sort();
    const first = ids.map((id) => sampleStatus(id));
    await at.records.alarms.commit(stepOf({ statuses: first }));
    const second = ids.map((id, number) =>
      sampleStatus(id, { assessedMs: startMs + number + 1, stage: null }),
    );
    await at.records.alarms.commit(stepOf({ statuses: [...first, ...second.toReversed()] }));
    expect(await at.records.statuses.forYard(yard.id)).toEqual(second);
  });

  test('a pile has one status, the last one saved', async () => {
    const { yard, pile } = await sampleYard(at.records);
    await at.records.statuses.save(sampleStatus(pile.id));
    const latest = sampleStatus(pile.id, { assessedMs: startMs + minuteMs, stage: null, coreCelsius: null });
    await at.records.statuses.save(latest);
    expect(await at.records.statuses.forYard(yard.id)).toEqual([latest]);
    const broken = sampleStatus(pile.id, { coreCelsius: Number.NaN });
    await expect(at.records.statuses.save(broken)).rejects.toMatchObject({ field: 'coreCelsius' });
  });

  test('a time is a whole number of milliseconds, in every database', async () => {
    const { pile } = await sampleYard(at.records);
    await expect(
      at.records.statuses.save(sampleStatus(pile.id, { assessedMs: startMs + 0.5 })),
    ).rejects.toThrow();
  });

  test('marks are kept by name', async () => {
    expect(await at.records.marks.get('cursor')).toBeNull();
    await at.records.marks.set('cursor', '41');
    await at.records.marks.set('cursor', '42');
    expect(await at.records.marks.get('cursor')).toBe('42');
    await at.records.marks.set('cursor:b_x', '7');
    const found = await at.records.marks.withPrefix('cursor:');
    expect([...found]).toEqual([['cursor:b_x', '7']]);
  });
}
