import { afterEach, describe, expect, it } from 'vitest';
import { firstProbe, readingsTopic, secondProbe, startIngest } from '../../tests/helpers/writePath.ts';
import type { IncomingMessage } from './port.ts';

const nowMs = 1_790_000_000_000;
const core = `${firstProbe}_core`;
const clock = { nowMs: () => nowMs };

function message(pack: unknown, change: Partial<IncomingMessage> = {}): IncomingMessage {
  const payload = Buffer.from(typeof pack === 'string' ? pack : JSON.stringify(pack));
  return {
    topic: readingsTopic(firstProbe),
    payload,
    signedInProbe: firstProbe,
    receivedMs: nowMs,
    retained: false,
    ...change,
  };
}
const one = (value: number, secondsAgo: number, name = core) => ({
  n: name,
  u: 'Cel',
  v: value,
  t: -secondsAgo,
});

describe('ingest', () => {
  let started: Awaited<ReturnType<typeof startIngest>>;
  afterEach(() => started.stop());
  const start = async (change: Parameters<typeof startIngest>[0] = {}) => {
    started = await startIngest({ clock, ...change });
    return started;
  };
  const stored = (channel = core) =>
    started.series.range({ channel, fromMs: 0, toMs: 2 * nowMs, quality: 'all' });

  it('stores a pack, resolves its times and tells who listens', async () => {
    const heard: number[] = [];
    const { ingest } = await start({
      onStored: (readings) => heard.push(...readings.map(({ value }) => value)),
    });
    const outcome = await ingest.accept(message([one(61.5, 60), one(61.75, 0)]));
    expect(outcome).toEqual({ kind: 'stored', stored: 2, duplicates: 0, quarantined: 0 });
    expect(await stored()).toMatchObject([
      { timeMs: nowMs - 60_000, value: 61.5, quality: 'good' },
      { timeMs: nowMs, value: 61.75, quality: 'good' },
    ]);
    expect(heard).toEqual([61.5, 61.75]);
  });

  it('takes a repeated pack as what it is', async () => {
    const { ingest } = await start();
    const pack = [{ bt: nowMs / 1000, ...one(60, 0) }];
    await ingest.accept(message(pack));
    expect(await ingest.accept(message(pack))).toMatchObject({ stored: 0, duplicates: 1 });
    expect(ingest.statistics()).toMatchObject({ messages: 2, readingsStored: 1, duplicates: 1, waiting: 0 });
  });

  it('believes a jump that the journal explains, and only in that pile and after it', async () => {
    const { ingest, records } = await start();
    const place = {
      yardId: 'gannet-row',
      quantity: 'temperature',
      position: 'core',
      depthMetres: 0.6,
    } as const;
    const standing = { fromMs: 0, toMs: null, pileId: 'cage-1' };
    records.placementRows.push({ ...place, ...standing, id: 'one', channel: core });
    const entry = { id: 'o', pileId: 'cage-1', value: null, note: '', by: null, recordedAtMs: nowMs };
    const jump = async (minutesAgo: number) => {
      await ingest.accept(message([one(60, (minutesAgo + 5) * 60), one(35, minutesAgo * 60)]));
      return (await stored()).filter(({ value }) => value === 35).at(-1);
    };
    records.journalRows.push({ ...entry, kind: 'opened', timeMs: nowMs - 60 * 60_000 });
    expect(await jump(180)).toMatchObject({ quality: 'suspect', reason: 'impossible-rate' });
    expect(await jump(50)).toMatchObject({ quality: 'good' });
    records.journalRows[0] = { ...records.journalRows[0]!, pileId: 'cage-2' };
    expect(await jump(10)).toMatchObject({ quality: 'suspect', reason: 'impossible-rate' });
  });

  it('keeps raw and calibrated value', async () => {
    const { ingest, records } = await start();
    records.calibrationRows.push({ channel: core, gain: 1.02, offset: -0.5, calibratedMs: 0, dueMs: null });
    await ingest.accept(message([one(50, 0)]));
    expect(await stored()).toMatchObject([{ rawValue: 50, value: 50.5 }]);
  });

  it('turns Kelvin and hundredths into what is stored', async () => {
    const { ingest } = await start();
    await ingest.accept(
      message(
        [
          { n: core, u: 'K', v: 300.15 },
          { bver: 26, n: `${firstProbe}_water`, u: '/100', v: 58 },
        ].reverse(),
      ),
    );
    expect(await stored()).toMatchObject([{ value: 27 }]);
    expect(await stored(`${firstProbe}_water`)).toMatchObject([{ value: 0.58 }]);
  });

  it('stores the good records of a pack and puts the bad ones in quarantine with the reason', async () => {
    const { ingest, records } = await start();
    const pack = [one(60, 5), { n: core, u: 'Cel', v: 'hot' }, one(61, 0), one(70, 0, `${secondProbe}_core`)];
    expect(await ingest.accept(message(pack))).toMatchObject({ stored: 2, quarantined: 2 });
    expect(records.items).toHaveLength(1);
    expect(records.items[0]!.reason).toMatch(/2 of 4 records refused.*"v".*got "hot".*does not belong to/s);
    expect(await stored(`${secondProbe}_core`)).toEqual([]);
  });

  it('keeps the base fields of a record whose own fields are wrong', async () => {
    const { ingest } = await start();
    const bn = `${firstProbe}_`;
    const pack = [
      { bn, bt: nowMs / 1000 - 60, bu: 'Cel', n: 'edge', v: null },
      { n: 'core', v: 58 },
    ];
    expect(await ingest.accept(message(pack))).toMatchObject({ stored: 1, quarantined: 1 });
    expect(await stored()).toMatchObject([{ timeMs: nowMs - 60_000, value: 58 }]);
  });

  it.each([
    ['truncated CBOR', Buffer.from('82a220', 'hex'), /CBOR/],
    ['NaN in JSON', '[{"n":"x","u":"Cel","v":NaN}]', /JSON/],
    ['4 MB of anything', Buffer.alloc(4 * 1024 * 1024, '['), /4194304 bytes; allowed: at most 1048576/],
    ['no pack at all', 'hello', /first byte/],
    ['a time in the year 9999', [{ n: core, u: 'Cel', v: 60, t: 253_370_764_800 }], /9999.*in the future/],
    ['a clock never set', [{ n: core, u: 'Cel', v: 60, t: 946_684_800 }], /2000-01-01.*10 years ago/],
    ['a unit nobody knows', [{ n: core, u: 'hot', v: 60 }], /unit "hot"/],
  ])('puts %s in quarantine and says why', async (_name, payload, reason) => {
    const { ingest, records } = await start();
    const change = payload instanceof Buffer ? { payload } : {};
    const outcome = await ingest.accept(message(payload, change));
    expect(outcome).toMatchObject({ kind: 'quarantined', reason: expect.stringMatching(reason) });
    expect(records.items).toMatchObject([{ probe: firstProbe, reason: expect.stringMatching(reason) }]);
    expect(await stored()).toEqual([]);
  });

  it.each([
    ['an unknown probe', 'urn:dev:ow:2890fe7997000320', /unknown probe urn:dev:ow:2890fe7997000320/],
    ['a topic nobody reads', null, /nobody reads topic/],
  ])('refuses %s of an external broker', async (_name, probe, reason) => {
    const { ingest } = await start();
    const topic = probe === null ? 'tilth/gannet-row/status' : readingsTopic(probe);
    const outcome = await ingest.accept(message([one(60, 0)], { topic, signedInProbe: null }));
    expect(outcome).toMatchObject({ kind: 'quarantined', reason: expect.stringMatching(reason) });
  });

  it('refuses a probe that was revoked and a probe of another yard', async () => {
    const { ingest, records } = await start();
    records.revoke(firstProbe);
    const external = { signedInProbe: null };
    expect(await ingest.accept(message([one(60, 0)], external))).toMatchObject({ reason: /revoked/ });
    const topic = `tilth/other-yard/${secondProbe}/readings`;
    const outcome = await ingest.accept(message([one(60, 0)], { ...external, topic }));
    expect(outcome).toMatchObject({ reason: expect.stringMatching(/does not belong to yard other-yard/) });
  });

  it('marks a reading from a fast clock as bad, and keeps it', async () => {
    const { ingest } = await start();
    await ingest.accept(message([one(60, -3600)]));
    expect(await stored()).toMatchObject([{ quality: 'bad', reason: 'future-time' }]);
  });

  it('takes a retained message only by its own absolute time', async () => {
    const { ingest } = await start();
    const retained = { retained: true, signedInProbe: null };
    const relative = await ingest.accept(message([one(60, 30)], retained));
    expect(relative).toMatchObject({
      kind: 'quarantined',
      reason: expect.stringMatching(/no absolute time/),
    });
    const absolute = [{ n: core, u: 'Cel', v: 60, t: nowMs / 1000 - 900 }];
    expect(await ingest.accept(message(absolute, retained))).toMatchObject({ stored: 1 });
    expect(await stored()).toMatchObject([{ timeMs: nowMs - 900_000 }]);
  });

  it('ignores texts and switches, and counts them', async () => {
    const { ingest } = await start();
    const pack = [
      one(60, 0),
      { n: `${firstProbe}_firmware`, vs: '1.2' },
      { n: `${firstProbe}_lid`, vb: true },
    ];
    expect(await ingest.accept(message(pack))).toMatchObject({ stored: 1, quarantined: 0 });
    expect(ingest.statistics().recordsIgnored).toBe(2);
  });

  it('remembers how often a probe promises to report', async () => {
    const { ingest } = await start();
    await ingest.accept(message([{ ...one(60, 0), ut: 900 }]));
    expect(ingest.promisedIntervalSeconds(firstProbe)).toBe(900);
    expect(ingest.promisedIntervalSeconds(secondProbe)).toBeNull();
  });

  it('reads other senders by their mapping', async () => {
    const mappings = [
      {
        topicFilter: 'garden/+/up',
        probe: firstProbe,
        timePointer: null,
        channels: [{ pointer: '/t', channel: 'core', unit: 'Cel' }],
      },
    ];
    const settings = { mappings, groupMilliseconds: 0, futureToleranceSeconds: 300, refreshMilliseconds: 0 };
    const { ingest } = await start({ settings });
    const mapped = message({ t: 57.5 }, { topic: 'garden/7/up', signedInProbe: null });
    expect(await ingest.accept(mapped)).toMatchObject({ stored: 1 });
    expect(await stored()).toMatchObject([{ value: 57.5, timeMs: nowMs }]);
  });

  it('tells the yard of a known probe that something of it was set aside', async () => {
    const told: string[] = [];
    const { ingest } = await start({ onQuarantined: (yardId) => told.push(yardId) });
    await ingest.accept(message('no SenML'));
    const stranger = 'tilth/gannet-row/urn:dev:ow:unknown/readings';
    await ingest.accept(message('no SenML', { topic: stranger, signedInProbe: null }));
    expect(told).toEqual(['gannet-row']);
  });

  it('lets one flooding sender have only its share of the quarantine', async () => {
    const { ingest, records } = await start();
    await Promise.all(Array.from({ length: 50 }, () => ingest.accept(message('rubbish'))));
    await ingest.accept(
      message('rubbish', { topic: readingsTopic(secondProbe), signedInProbe: secondProbe }),
    );
    expect(records.items.filter(({ probe }) => probe === firstProbe)).toHaveLength(10);
    expect(records.items.filter(({ probe }) => probe === secondProbe)).toHaveLength(1);
    expect(ingest.statistics().quarantined).toBe(51);
  });
});

describe('ingest, judging', () => {
  let started: Awaited<ReturnType<typeof startIngest>>;
  afterEach(() => started.stop());
  const quarterHours = (values: readonly number[]) =>
    values.map((value, index) => one(value, (values.length - 1 - index) * 900));

  it('tells the start-up value of a sensor from a pile that is truly at 85', async () => {
    started = await startIngest({ clock });
    await started.ingest.accept(message(quarterHours([60, 60.5, 85])));
    await started.ingest.accept(message(quarterHours([84, 85]).map((each) => ({ ...each, n: `${core}2` }))));
    const all = (channel: string) =>
      started.series.range({ channel, fromMs: 0, toMs: 2 * nowMs, quality: 'all' });
    expect((await all(core)).at(-1)).toMatchObject({ value: 85, quality: 'bad', reason: 'power-on-value' });
    expect((await all(`${core}2`)).at(-1)).toMatchObject({ value: 85, quality: 'good' });
  });

  it('judges after a restart by what was stored before it', async () => {
    started = await startIngest({ clock });
    await started.ingest.accept(
      message(quarterHours([84, 84.5]).map((each) => ({ ...each, t: each.t - 900 }))),
    );
    const { createIngest } = await import('./createIngest.ts');
    const settings = { mappings: [], groupMilliseconds: 0, futureToleranceSeconds: 300 };
    const logger = { info: () => {}, warn: () => {}, error: () => {} };
    const again = createIngest({ ...started, clock, logger, settings });
    await again.accept(message([one(85, 0)]));
    const good = await started.series.range({ channel: core, fromMs: 0, toMs: 2 * nowMs });
    expect(good.map(({ value }) => value)).toEqual([84, 84.5, 85]);
  });

  it('judges readings that come a day late by their own surroundings', async () => {
    started = await startIngest({ clock });
    await started.ingest.accept(message([one(20, 0)]));
    const yesterday = quarterHours([83, 84, 85]).map((each) => ({ ...each, t: each.t - 86_400 }));
    await started.ingest.accept(message(yesterday.slice(0, 2)));
    await started.ingest.accept(message(yesterday.slice(2)));
    const good = await started.series.range({ channel: core, fromMs: 0, toMs: 2 * nowMs });
    expect(good.map(({ value }) => value)).toEqual([83, 84, 85, 20]);
  });

  it('compares a channel with its neighbours in the pile', async () => {
    started = await startIngest({ clock });
    const edge = `${firstProbe}_edge`;
    const place = (channel: string) => ({
      id: channel,
      yardId: 'gannet-row',
      pileId: 'pile',
      channel,
      quantity: 'temperature' as const,
      position: 'core' as const,
      depthMetres: null,
      fromMs: 0,
      toMs: null,
    });
    started.records.placementRows.push(place(core), place(edge));
    await started.ingest.accept(message(quarterHours([55, 56]).map((each) => ({ ...each, n: edge }))));
    await started.ingest.accept(message([one(0, 0)]));
    const found = await started.series.range({ channel: core, fromMs: 0, toMs: 2 * nowMs, quality: 'all' });
    expect(found).toMatchObject([{ value: 0, quality: 'bad', reason: 'bus-stuck-low' }]);
  });
});

describe('ingest, when the store fails', () => {
  it('rejects what was not stored, answers in order of arrival and recovers', async () => {
    const started = await startIngest({ clock });
    const { createIngest } = await import('./createIngest.ts');
    let isFailing = true;
    const append: typeof started.series.append = (readings) =>
      isFailing ? Promise.reject(new Error('disk full')) : started.series.append(readings);
    const ingest = createIngest({
      ...started,
      series: { ...started.series, append },
      clock,
      logger: { info: () => {}, warn: () => {}, error: () => {} },
      settings: { mappings: [], groupMilliseconds: 1, futureToleranceSeconds: 300 },
    });
    const order: string[] = [];
    const send = (name: string, payload: unknown) =>
      ingest.accept(message(payload)).then(
        () => order.push(`${name} kept`),
        (error: Error) => order.push(`${name} ${error.message}`),
      );
    await Promise.all([send('first', 'rubbish'), send('second', [one(60, 9)]), send('third', 'rubbish')]);
    expect(order).toEqual(['first kept', 'second disk full', 'third kept']);
    isFailing = false;
    await expect(ingest.accept(message([one(60, 9)]))).resolves.toMatchObject({ stored: 1 });
    expect(ingest.statistics().storageFaults).toBe(1);
    await started.stop();
  });
});
