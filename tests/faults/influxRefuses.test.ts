import { expect, it } from 'vitest';
import { noteFault } from '../helpers/faultTable.ts';
import { influxdProgram } from '../helpers/influxd.ts';
import { caughtUp } from '../helpers/influxSeries.ts';
import { sameTotals, second, startMs, useInfluxInTrouble } from '../helpers/influxTrouble.ts';
import { describeIf } from '../helpers/requirement.ts';

const dayMs = 86_400_000;

describeIf(influxdProgram !== null, 'no influxd found; Debian has it in the package influxdb')(
  'InfluxDB refusing',
  () => {
    const trouble = useInfluxInTrouble();
    const { now, status, stateBecomes, load, totals } = trouble;

    it('a few lines: puts just these aside with what it said, and writes all others', async () => {
      now.proxy.trouble = { kind: 'refuses', text: 'value=53.4375,' };
      await load(0, 30);
      await caughtUp(now.opened);
      const { here, there } = await totals();
      const aside = second(0).filter(({ value }) => value === 53.4375);
      expect(aside.length).toBe(1);
      expect(status()).toMatchObject({ state: 'caught-up', refused: 10, written: 2_990 });
      expect(now.opened.forwarder!.refused(100)).toHaveLength(10);
      expect(now.opened.forwarder!.refused(1)[0]).toMatchObject({
        value: 53.4375,
        answer: expect.stringContaining('unable to parse this line'),
      });
      const count = (totals: typeof here) => Object.values(totals).reduce((sum, each) => sum + each.count, 0);
      expect([count(here), count(there)]).toEqual([3_000, 2_990]);
      noteFault({
        fault: 'InfluxDB refuses a few lines',
        expected: 'just these are put aside with what it said, all others written',
        seen: `2,990 of 3,000 written, 10 put aside, 3,000 in the local store`,
      });
    });

    it('a reading from a time it does not know: puts that one aside', async () => {
      const [first, ...others] = second(0);
      await now.opened.local.append([{ ...first!, timeMs: 9e15 }, ...others]);
      await caughtUp(now.opened);
      expect(status()).toMatchObject({ refused: 1, written: 99 });
      expect(now.opened.forwarder!.refused(1)[0]!.answer).toMatch(/time outside range/);
    });

    it('every line: passes nothing over, and goes on when the cause is set right', async () => {
      await now.opened.close();
      const foreign = `reading,channel=other value="text" ${startMs}`;
      await fetch(`${now.server.url}/write?db=yard&precision=ms`, { method: 'POST', body: foreign });
      await trouble.start();
      await load(0, 20);
      await stateBecomes('refused');
      expect(status()).toMatchObject({ forwardedSequence: 0, refused: 0, waiting: 2_000 });
      expect(status().text).toMatch(/takes none of the readings.*field type conflict/);
      await now.server.execute('DROP DATABASE yard');
      await stateBecomes('not-found');
      expect(status().text).toMatch(/no such database/);
      await now.server.execute('CREATE DATABASE yard');
      const { here, there } = await totals();
      expect(there).toEqual(here);
      noteFault({
        fault: 'InfluxDB refuses every line (another field type), then has lost its database',
        expected: 'nothing is passed over; goes on by itself once a person has set it right',
        seen: `2,000 waited through both, then all there: ${sameTotals(there)}`,
      });
    });

    it('what is older than its own retention: counts it and goes on', async () => {
      await now.server.execute('CREATE RETENTION POLICY short ON yard DURATION 30d REPLICATION 1 DEFAULT');
      const recentMs = Date.now() - dayMs;
      const recent = second(1).map((reading, index) => ({ ...reading, timeMs: recentMs + index }));
      await now.opened.local.append([...second(0), ...recent]);
      await caughtUp(now.opened);
      expect(status()).toMatchObject({ beyondRetention: 100, written: 100, refused: 0 });
      const { there } = await totals();
      expect(Object.values(there).reduce((sum, { count }) => sum + count, 0)).toBe(100);
      noteFault({
        fault: 'InfluxDB keeps less long than readings are old',
        expected: 'what is too old for it is counted, the rest written',
        seen: '100 counted as too old, 100 written',
      });
    });

    it('being somebody else: takes a friendly page for no success', async () => {
      const page = { status: 200, body: '<html>Please sign in to this network</html>', type: 'text/html' };
      now.proxy.trouble = { kind: 'answers', ...page };
      await load(0, 5);
      await stateBecomes('away');
      expect(status()).toMatchObject({ forwardedSequence: 0, waiting: 500 });
      expect(status().text).toMatch(/answered 200 where 204 means written/);
      now.proxy.trouble = { kind: 'none' };
      const { here, there } = await totals();
      expect(there).toEqual(here);
      noteFault({
        fault: 'a sign-in page of a network answers 200 in place of InfluxDB',
        expected: 'taken for no success; nothing lost, nothing twice',
        seen: `500 waited, then ${sameTotals(there)}`,
      });
    });

    it('takes 201, said of a batch written in part only, for no success', async () => {
      now.proxy.trouble = { kind: 'answers', status: 201, body: '{"message":"partial write"}' };
      await load(0, 5);
      await stateBecomes('refused');
      expect(status()).toMatchObject({ forwardedSequence: 0, waiting: 500 });
    });
  },
);
