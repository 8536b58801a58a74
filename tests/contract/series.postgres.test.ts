import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPostgresSeries, openSeriesPool } from '../../services/series/openPostgresSeries.ts';
import { SeriesFault } from '../../services/series/openSqliteSeries.ts';
import { findPostgres, type PostgresServer, postgresMissing, startPostgres } from '../helpers/postgres.ts';
import { describeIf } from '../helpers/requirement.ts';
import { describeSeriesContract } from './seriesContract.ts';

const installed = findPostgres() !== null;
let server: PostgresServer | null = null;

beforeAll(async () => {
  if (installed) server = await startPostgres();
});
afterAll(() => server?.stop());

const open = (connectionString: string) => openPostgresSeries(openSeriesPool({ connectionString }));

const at = (timeMs: number, channel = 'new') =>
  ({ channel, timeMs, rawValue: 1, value: 1, quality: 'good', reason: null }) as const;

describeIf(installed, postgresMissing)('series on PostgreSQL', () => {
  describeSeriesContract('PostgreSQL', async () => {
    const address = await server!.createDatabase();
    let store = await open(address);
    return {
      store,
      async reopen() {
        await store.close();
        store = await open(address);
        return store;
      },
      remove: () => store.close(),
    };
  });

  describe('several processes over one database', () => {
    it('give out sequences a cursor can follow while both store: none is passed over, none comes twice', async () => {
      const address = await server!.createDatabase();
      // Opened at one time: the tables are made once.
      const [one, other, follower] = await Promise.all([open(address), open(address), open(address)]);
      const seen: number[] = [];
      let cursor = 0;
      let done = false;
      const following = (async () => {
        for (;;) {
          const wasDone = done;
          const some = await follower.since(cursor, 50);
          seen.push(...some.map(({ timeMs }) => timeMs));
          cursor = some.at(-1)?.sequence ?? cursor;
          if (wasDone && some.length === 0) return;
        }
      })();
      const rounds = Array.from({ length: 60 }, (_, round) => round);
      const storing = async (store: typeof one, offset: number) => {
        for (const round of rounds)
          await store.append(Array.from({ length: 20 }, (_, index) => at(round * 40 + offset + index)));
      };
      await Promise.all([storing(one, 0), storing(other, 20)]);
      done = true;
      await following;
      expect(seen.length).toBe(2400);
      expect(new Set(seen).size).toBe(2400);
      expect(cursor).toBe(2400);
      await Promise.all([one.close(), other.close(), follower.close()]);
    });

    it('store what both were sent once, and count it once', async () => {
      const address = await server!.createDatabase();
      const [one, other] = await Promise.all([open(address), open(address)]);
      const same = Array.from({ length: 500 }, (_, index) => at(index * 1000, `c${index % 7}`));
      const results = await Promise.all([one.append(same), other.append(same)]);
      expect(results.reduce((sum, { stored }) => sum + stored, 0)).toBe(500);
      const hours = await Promise.all(
        (await one.channels()).map((name) => one.rollups(name, 'day', 0, 86_400_000)),
      );
      expect(hours.flat().reduce((sum, { count }) => sum + count, 0)).toBe(500);
      await Promise.all([one.close(), other.close()]);
    });
  });

  it('says that the database is away, and stores again when it is back', async () => {
    const own = await startPostgres();
    const store = await open(await own.createDatabase());
    await own.stop();
    await expect(store.append([at(1)])).rejects.toThrow(SeriesFault);
    await store.close();
  });
});
