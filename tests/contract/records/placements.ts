import { expect, test } from 'vitest';
import { placementValues, sampleYard, startMs } from './samples.ts';
import { type FreshDatabase, useRecords } from './useRecords.ts';

const later = (steps: number) => startMs + steps * 1000;

export function describePlacements(fresh: FreshDatabase): void {
  const at = useRecords(fresh);

  test('a channel stands in a pile from one time to another', async () => {
    const sample = await sampleYard(at.records);
    const placed = await at.records.placements.create(placementValues(sample));
    expect(placed).toEqual({ ...placementValues(sample), id: placed.id });
    const ended = await at.records.placements.end(placed.id, later(5));
    expect(ended).toEqual({ ...placed, toMs: later(5) });
    expect(await at.records.placements.list(sample.yard.id)).toEqual([ended]);
    expect(await at.records.placements.forPile(sample.pile.id)).toEqual([ended]);
  });

  test('a channel cannot be at two places at once, but may move on at the very moment it left', async () => {
    const sample = await sampleYard(at.records);
    const create = (fromMs: number, toMs: number | null) =>
      at.records.placements.create(placementValues(sample, { fromMs, toMs }));
    await create(later(10), later(20));
    for (const [fromMs, toMs] of [
      [later(5), later(11)],
      [later(12), later(15)],
      [later(19), null],
      [later(0), null],
      [later(0), later(30)],
    ] as const)
      await expect(create(fromMs, toMs)).rejects.toMatchObject({ field: 'fromMs' });
    await create(later(0), later(10));
    await create(later(20), null);
    await expect(create(later(40), null)).rejects.toMatchObject({ field: 'fromMs' });
    expect(await at.records.placements.list(sample.yard.id)).toHaveLength(3);
  });

  test('another channel does not mind', async () => {
    const sample = await sampleYard(at.records);
    await at.records.placements.create(placementValues(sample));
    await at.records.placements.create(
      placementValues(sample, { channel: 'urn:dev:ow:28139bbb0b00001f_edge' }),
    );
    expect(await at.records.placements.list(sample.yard.id)).toHaveLength(2);
  });

  test('an end cannot be moved into the next placement or before the start', async () => {
    const sample = await sampleYard(at.records);
    const first = await at.records.placements.create(placementValues(sample, { toMs: later(5) }));
    await at.records.placements.create(placementValues(sample, { fromMs: later(5) }));
    await expect(at.records.placements.end(first.id, later(6))).rejects.toMatchObject({ field: 'fromMs' });
    await expect(at.records.placements.end(first.id, startMs - 1)).rejects.toMatchObject({ field: 'toMs' });
    await expect(at.records.placements.end('none', later(6))).rejects.toMatchObject({ field: 'placementId' });
  });

  test('a placement taken back at its own start leaves the channel free', async () => {
    const sample = await sampleYard(at.records);
    const mistake = await at.records.placements.create(placementValues(sample, { fromMs: later(5) }));
    await at.records.placements.end(mistake.id, later(5));
    const right = await at.records.placements.create(placementValues(sample, { fromMs: later(0) }));
    expect(right.toMs).toBeNull();
  });

  test('a placement needs a yard, a pile where it names one, and some length', async () => {
    const sample = await sampleYard(at.records);
    const create = (change: object) => at.records.placements.create(placementValues(sample, change));
    await expect(create({ yardId: 'none' })).rejects.toMatchObject({ field: 'yardId' });
    await expect(create({ pileId: 'none' })).rejects.toMatchObject({ field: 'pileId' });
    await expect(create({ toMs: startMs })).rejects.toMatchObject({ field: 'toMs' });
    expect((await create({ pileId: null, position: 'air' })).pileId).toBeNull();
  });
}
