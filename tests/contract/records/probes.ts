import { expect, test } from 'vitest';
import { placementValues, probeValues, sampleYard, startMs } from './samples.ts';
import { type FreshDatabase, useRecords } from './useRecords.ts';

export function describeProbes(fresh: FreshDatabase): void {
  const at = useRecords(fresh, { quarantineKeep: 3 });

  test('a probe has a secret until it is revoked, and again when given a new one', async () => {
    const { yard } = await sampleYard(at.records);
    const probe = await at.records.probes.create(probeValues(yard.id), 'hash 1');
    expect(probe).toEqual({ ...probeValues(yard.id), revokedMs: null });
    expect(await at.records.probes.secretHash(probe.id)).toBe('hash 1');
    await at.records.probes.revoke(probe.id, startMs + 5);
    expect(await at.records.probes.secretHash(probe.id)).toBeNull();
    expect(await at.records.probes.list(yard.id)).toEqual([{ ...probe, revokedMs: startMs + 5 }]);
    await at.records.probes.setSecret(probe.id, 'hash 2');
    expect(await at.records.probes.secretHash(probe.id)).toBe('hash 2');
    expect(await at.records.probes.get(probe.id)).toEqual(probe);
  });

  test('a probe exists once and belongs to a yard', async () => {
    const { yard } = await sampleYard(at.records);
    await at.records.probes.create(probeValues(yard.id), 'hash');
    await expect(at.records.probes.create(probeValues(yard.id), 'hash')).rejects.toMatchObject({
      field: 'id',
    });
    const stray = at.records.probes.create(probeValues('none', 'urn:dev:mac:1'), 'hash');
    await expect(stray).rejects.toMatchObject({ field: 'yardId' });
    await expect(at.records.probes.setSecret('none', 'x')).rejects.toMatchObject({ field: 'probeId' });
    await expect(at.records.probes.revoke('none', startMs)).rejects.toMatchObject({ field: 'probeId' });
  });

  test('the latest calibration of each of a yard’s channels counts', async () => {
    const sample = await sampleYard(at.records);
    const elsewhere = await sampleYard(at.records, 'otto');
    await at.records.probes.create(probeValues(sample.yard.id), 'hash');
    await at.records.placements.create(placementValues(sample, { channel: 'shed/air' }));
    const calibration = { gain: 1.01, offset: -0.25, dueMs: null };
    const own = { ...calibration, channel: 'urn:dev:ow:28139bbb0b00001f_core', calibratedMs: startMs + 9 };
    await at.records.probes.saveCalibration(own);
    await at.records.probes.saveCalibration({ ...own, offset: 4, calibratedMs: startMs });
    await at.records.probes.saveCalibration({ ...own, gain: 1 });
    const placed = { ...calibration, channel: 'shed/air', calibratedMs: startMs, dueMs: startMs + 99 };
    await at.records.probes.saveCalibration(placed);
    expect(await at.records.probes.calibrations(sample.yard.id)).toEqual([placed, { ...own, gain: 1 }]);
    expect(await at.records.probes.calibrations(elsewhere.yard.id)).toEqual([]);
  });

  test('a calibration of nothing, or by nothing, is refused', async () => {
    const sample = await sampleYard(at.records);
    await at.records.probes.create(probeValues(sample.yard.id), 'hash');
    const save = (channel: string, gain: number) =>
      at.records.probes.saveCalibration({ channel, gain, offset: 0, calibratedMs: startMs, dueMs: null });
    await expect(save('urn:dev:ow:28139bbb0b00001fcore', 1)).rejects.toMatchObject({ field: 'channel' });
    await expect(save('urn:dev:ow:28139bbb0b00001f_core', 0)).rejects.toMatchObject({ field: 'gain' });
  });

  test('the quarantine keeps the newest items and counts them all', async () => {
    const { yard } = await sampleYard(at.records);
    expect(await at.records.quarantine.total()).toBe(0);
    for (const receivedMs of [1, 2, 3, 4, 5]) await at.records.quarantine.add(itemAt(receivedMs));
    expect(await at.records.quarantine.total()).toBe(5);
    expect(await at.records.quarantine.totalOf(yard.id)).toBe(5);
    const kept = await at.records.quarantine.list(yard.id, 10);
    expect(kept.map((item) => item.receivedMs)).toEqual([5, 4, 3]);
    expect(kept[0]).toEqual({ ...itemAt(5), id: 5 });
    expect(await at.records.quarantine.list(yard.id, 1)).toHaveLength(1);
  });

  test('the quarantine knows whose each item is, and no yard sees or pushes out what is another’s', async () => {
    const [one, other] = [await sampleYard(at.records), await sampleYard(at.records, 'other')];
    await at.records.probes.create(probeValues(one.yard.id), 'hash');
    const { quarantine } = at.records;
    const probe = probeValues(one.yard.id).id;
    const topicOf = (yardId: string) => `tilth/${yardId}/urn:dev:ow:1/readings`;
    // A known probe says more than the topic it wrote to; an unknown one belongs where its topic says.
    expect(await quarantine.add({ ...itemAt(1), probe, topic: topicOf(other.yard.id) })).toBe(one.yard.id);
    expect(await quarantine.add({ ...itemAt(2), topic: topicOf(other.yard.id) })).toBe(other.yard.id);
    expect(await quarantine.add({ ...itemAt(3), topic: 'tilth/nowhere/x/readings' })).toBeNull();
    expect(await quarantine.add({ ...itemAt(4), topic: 'their/own', probe: null })).toBeNull();
    for (const receivedMs of [5, 6, 7, 8])
      await quarantine.add({ ...itemAt(receivedMs), topic: topicOf(other.yard.id) });
    const times = async (yardId: string) =>
      (await quarantine.list(yardId, 10)).map(({ receivedMs }) => receivedMs);
    expect(await times(one.yard.id)).toEqual([1]);
    expect(await times(other.yard.id)).toEqual([8, 7, 6]);
    expect(await quarantine.totalOf(one.yard.id)).toBe(1);
    expect(await quarantine.totalOf(other.yard.id)).toBe(5);
    expect(await quarantine.total()).toBe(8);
  });

  test('the quarantine takes anything, cut to size', async () => {
    const { yard } = await sampleYard(at.records);
    const payload = new Uint8Array(100_000).fill(0xff);
    const strange = { ...itemAt(1), topic: `a\0b\ud800${'x'.repeat(70_000)}`, reason: '\0', probe: null };
    await at.records.quarantine.add({ ...strange, payloadStart: payload, payloadBytes: 100_000 });
    const [item] = await at.records.quarantine.list(yard.id, 1);
    expect(item?.payloadStart).toEqual(payload.subarray(0, 4096));
    expect(item?.topic.length).toBe(1000);
    expect(item).toMatchObject({ probe: null, payloadBytes: 100_000 });
  });
}

const itemAt = (receivedMs: number) => ({
  receivedMs,
  topic: 'tilth/y1/urn:dev:ow:1/readings',
  probe: 'urn:dev:ow:1',
  reason: 'not SenML',
  payloadStart: Uint8Array.of(0, 1, 254, 255),
  payloadBytes: 4,
});
