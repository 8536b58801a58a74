import { setTimeout as sleep } from 'node:timers/promises';
import pg from 'pg';
import { pino } from 'pino';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createInProcessBus } from '../../services/sharing/inProcessBus.ts';
import type { Change, ChangeBus } from '../../services/sharing/port.ts';
import { openPostgresBus } from '../../services/sharing/postgresBus.ts';
import { eventually } from '../helpers/eventually.ts';
import { findPostgres, type PostgresServer, postgresMissing, startPostgres } from '../helpers/postgres.ts';
import { describeIf } from '../helpers/requirement.ts';

const installed = findPostgres() !== null;
const logger = pino({ level: 'silent' });
let server: PostgresServer | null = null;
let address = '';

beforeAll(async () => {
  if (!installed) return;
  server = await startPostgres();
  address = await server.createDatabase();
});
afterAll(() => server?.stop());

const open = (processId: string) => openPostgresBus({ connectionString: address, processId, logger });

/** What every bus must do within one process. */
function describeBus(name: string, opened: () => Promise<ChangeBus>): void {
  describe(name, () => {
    it('calls whoever listens to that kind, in this very turn, and nobody else', async () => {
      const bus = await opened();
      const heard: Change[] = [];
      bus.listen('facts', (change) => heard.push(change));
      bus.listen('facts', (change) => heard.push(change));
      bus.listen('deeds', () => heard.push({ kind: 'deeds' }));
      bus.tell({ kind: 'facts', pileId: 'p' });
      expect(heard).toEqual([
        { kind: 'facts', pileId: 'p' },
        { kind: 'facts', pileId: 'p' },
      ]);
      expect(bus.isConnected()).toBe(true);
      await bus.close();
    });

    it('lets no listener that throws keep others from hearing', async () => {
      const bus = await opened();
      let heard = 0;
      bus.listen('deeds', () => {
        throw new Error('broken');
      });
      bus.listen('deeds', () => {
        heard += 1;
      });
      bus.tell({ kind: 'deeds' });
      expect(heard).toBe(1);
      await bus.close();
    });
  });
}

describeBus('changes within one process', async () => createInProcessBus(() => {}));

describeIf(installed, postgresMissing)('changes by PostgreSQL', () => {
  describeBus('within one process', () => open('alone'));

  it('reach other processes once, and come back to none', async () => {
    const [one, other] = await Promise.all([open('one'), open('other')]);
    const heard: string[] = [];
    for (const [name, bus] of [
      ['one', one],
      ['other', other],
    ] as const)
      bus.listen('screens', ({ changes }) => heard.push(`${name} ${changes.length}`));
    for (let count = 0; count < 5; count += 1)
      one.tell({ kind: 'screens', changes: [{ kind: 'pile', yardId: 'y', pileId: `p${count % 2}` }] });
    await eventually('the other hears', () => heard.includes('other 2'));
    await sleep(300);
    expect(heard).toEqual([...Array.from({ length: 5 }, () => 'one 1'), 'other 2']);
    await Promise.all([one.close(), other.close()]);
  });

  it('say that some were missed when the connection was lost, and are heard again', async () => {
    const [one, other] = await Promise.all([open('one'), open('other')]);
    let missed = 0;
    let heard = 0;
    one.listen('missed', () => {
      missed += 1;
    });
    one.listen('deeds', () => {
      heard += 1;
    });
    const admin = new pg.Client({ connectionString: address });
    await admin.connect();
    await admin.query(
      "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE application_name = 'tilthwatch changes'",
    );
    await admin.end();
    await eventually('both notice', () => !one.isConnected() && !other.isConnected());
    other.tell({ kind: 'deeds' });
    await eventually('both are back', () => one.isConnected() && other.isConnected(), 20_000);
    expect(missed).toBeGreaterThan(0);
    expect(heard).toBe(0);
    other.tell({ kind: 'deeds' });
    await eventually('changes travel again', () => heard === 1);
    await Promise.all([one.close(), other.close()]);
  }, 60_000);
});
