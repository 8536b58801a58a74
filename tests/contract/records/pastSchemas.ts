import { existsSync, readFileSync } from 'node:fs';
import { DatabaseSync } from 'node:sqlite';
import pg from 'pg';
import { expect, onTestFinished, test } from 'vitest';
import { allMigrations } from '../../../services/records/migrations/all.ts';
import { openRecords, type RecordsOptions } from '../../../services/records/openRecords.ts';
import type { Records } from '../../../services/records/port.ts';
import type { FreshDatabase } from './useRecords.ts';

const names = Object.keys(allMigrations).sort();
const past = new URL('past/', import.meta.url);
const untouched = /^(records_migration|counters$|sqlite_)/;

/** Plain SQL over a database, past all of our own code. */
interface Plain {
  run(statements: string): Promise<unknown>;
  all(query: string): Promise<Record<string, unknown>[]>;
  tables(): Promise<string[]>;
  close(): Promise<unknown>;
}

/**
 * From every schema there ever was, filled as its own program filled it (`past/<step>.sql`), to today's: everything is
 * still there, in every column it had, and the stores of today can read it.
 */
export function describePastSchemas(fresh: FreshDatabase): void {
  test.each(names)('a database of %s comes forward with everything in it', async (name) => {
    const options = await fresh();
    const steps = names.slice(0, names.indexOf(name) + 1);
    const migrations = Object.fromEntries(steps.map((step) => [step, allMigrations[step]!]));
    await (await openRecords({ ...options, migrations })).close();
    const plain = await openPlain(options);
    onTestFinished(async () => void (await plain.close()));
    for (const step of steps) await plain.run(seedOf(step, options));
    if (options.kind === 'sqlite') await schemaStaysAsReleased(plain, name);
    const before = await everyRow(plain);
    const records = await openRecords(options);
    onTestFinished(() => records.close());
    const after = await everyRow(plain);
    for (const [table, rows] of before) expect(after.get(table), table).toMatchObject(rows);
    expect(before.size).toBeGreaterThanOrEqual(20);
    await expectReadable(records);
    const next = names[steps.length];
    if (options.kind === 'sqlite' && next !== undefined)
      expect(existsSync(`${options.file}.before-${next}.backup`)).toBe(true);
  });
}

/** Rows its own program would have written; a step that brings none has none of its own. */
function seedOf(step: string, { kind }: RecordsOptions): string {
  const file = new URL(`${step}.sql`, past);
  const bytes = kind === 'sqlite' ? `x'00ff0a'` : `'\\x00ff0a'::bytea`;
  return existsSync(file) ? readFileSync(file, 'utf8').replaceAll(':bytes', bytes) : '';
}

/** A released step is never changed: what it made is kept beside and compared. A new step writes its file once. */
async function schemaStaysAsReleased(plain: Plain, name: string): Promise<void> {
  const rows = await plain.all(
    `select sql from sqlite_schema where sql is not null and name not like 'records_migration%' order by name`,
  );
  const schema = `${rows.map(({ sql }) => `${sql};`).join('\n')}\n`;
  await expect(schema).toMatchFileSnapshot(new URL(`${name}.schema.sql`, past).pathname);
}

async function everyRow(plain: Plain): Promise<Map<string, Record<string, unknown>[]>> {
  const tables = (await plain.tables()).filter((table) => !untouched.test(table));
  const found = new Map<string, Record<string, unknown>[]>();
  for (const table of tables) found.set(table, await plain.all(`select * from ${table}`));
  return found;
}

/** Each store of today reads the row of its table. */
async function expectReadable(records: Records): Promise<void> {
  const [yard] = await records.yards.list();
  expect(yard).toMatchObject({ id: 'yard', altitudeMetres: 12.5 });
  const lists = {
    piles: records.piles.list('yard'),
    placements: records.placements.list('yard'),
    limits: records.limits.history('pile'),
    journal: records.journal.list('pile'),
    statuses: records.statuses.forYard('yard'),
    alarms: records.alarms.list('yard'),
    transitions: records.alarms.transitions('alarm'),
    messages: records.messages.list('yard', 10),
    attempts: records.messages.attempts('message'),
    people: records.people.list('yard'),
    wallLinks: records.wallLinks.list('yard'),
    audit: records.audit.list('yard', 10),
    probes: records.probes.list('yard'),
    calibrations: records.probes.calibrations('yard'),
    quarantine: records.quarantine.list('yard', 10),
  };
  for (const [name, list] of Object.entries(lists)) expect(await list, name).toHaveLength(1);
  expect(await records.quarantine.totalOf('yard')).toBe(7);
  expect(await records.marks.get('rules:cursor')).toBe('42');
  expect(await records.sessions.get('session')).toMatchObject({ personId: 'person' });
  expect(await records.setupLinks.peek('link', 1)).toMatchObject({ purpose: 'set-password' });
  expect(await records.alarms.get('alarm')).toMatchObject({ code: 'K7', evidence: [{ value: 72.5 }] });
}

async function openPlain(options: RecordsOptions): Promise<Plain> {
  if (options.kind === 'sqlite') {
    const database = new DatabaseSync(options.file, { timeout: 5_000 });
    return {
      run: async (statements) => database.exec(statements),
      all: async (query) =>
        database
          .prepare(query)
          .all()
          .map((row) => ({ ...row })),
      tables: async () =>
        database
          .prepare(`select name from sqlite_schema where type = 'table'`)
          .all()
          .map(({ name }) => String(name)),
      close: async () => database.close(),
    };
  }
  const client = new pg.Client({ connectionString: options.connectionString });
  await client.connect();
  const all = async (query: string) => (await client.query(query)).rows;
  return {
    run: (statements) => client.query(statements),
    all,
    tables: async () =>
      (await all(`select table_name from information_schema.tables where table_schema = 'public'`)).map(
        ({ table_name }) => String(table_name),
      ),
    close: () => client.end(),
  };
}
