import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { pino } from 'pino';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { exportYard, tableFile } from '../../services/operate/export/exportYard.ts';
import { importYard } from '../../services/operate/export/importYard.ts';
import type { ExportManifest } from '../../services/operate/export/manifest.ts';
import { allMigrations } from '../../services/records/migrations/all.ts';
import { openRecords, type RecordsOptions } from '../../services/records/openRecords.ts';
import type { Records } from '../../services/records/port.ts';
import { openTransfer } from '../../services/records/transfer/openTransfer.ts';
import { openSqliteSeries } from '../../services/series/openSqliteSeries.ts';
import type { Reading } from '../../shared/readings/reading.ts';
import { decodeSenml } from '../../shared/senml/decodeSenml.ts';
import { furnishedChannel, furnishRecords, secretsWithin } from '../helpers/furnishedRecords.ts';
import { findPostgres, type PostgresServer, postgresMissing, startPostgres } from '../helpers/postgres.ts';
import { describeIf } from '../helpers/requirement.ts';
import { temporaryFolder } from '../helpers/writePath.ts';

const startMs = Date.UTC(2026, 2, 1);
const nowMs = startMs + 40 * 86_400_000;
const logger = pino({ level: 'silent' });
const knownSteps = Object.keys(allMigrations);
const onProgress = () => {};
const strangeChannel = 'urn:dev:os:32473-1001_air/out';
const cleanUp: (() => unknown)[] = [];
let folder: string;
const at = (name: string) => join(folder, name);

beforeEach(async () => {
  const made = await temporaryFolder();
  folder = made.path;
  cleanUp.push(made.remove);
});
afterEach(async () => {
  for (const undo of cleanUp.splice(0).reverse()) await undo();
});

interface OpenYard {
  readonly records: Records;
  readonly series: Awaited<ReturnType<typeof openSqliteSeries>>;
  readonly options: RecordsOptions;
}

async function openYard(name: string, options?: RecordsOptions): Promise<OpenYard> {
  await mkdir(at(name), { recursive: true });
  const chosen = options ?? { kind: 'sqlite', file: at(`${name}/records.sqlite`) };
  const records = await openRecords(chosen);
  cleanUp.push(records.close);
  const series = await openSqliteSeries({ file: at(`${name}/series.sqlite`) });
  cleanUp.push(series.close);
  return { records, series, options: chosen };
}

/** Forty days of two channels, with values that have no short decimal form, doubtful ones and bad ones. */
function readings(): Reading[] {
  const core = Array.from({ length: 23_000 }, (_, index): Reading => {
    const rawValue = 60 + Math.sin(index / 100) / 3;
    const base = { channel: furnishedChannel, timeMs: startMs + index * 150_001, rawValue };
    if (index % 50 === 7) return { ...base, value: -127, quality: 'bad', reason: 'did-not-answer' };
    return { ...base, value: rawValue * 1.01 - 0.25, quality: 'good', reason: null };
  });
  const air = Array.from({ length: 30 }, (_, index): Reading => {
    const value = 8 + index / 7;
    const base = { channel: strangeChannel, timeMs: startMs + index * 86_400_000, rawValue: value, value };
    return index === 3
      ? { ...base, quality: 'suspect', reason: 'outlier' }
      : { ...base, quality: 'good', reason: null };
  });
  return [...core, ...air];
}

async function exportOf(yard: OpenYard, name: string): Promise<ExportManifest> {
  const records = openTransfer(yard.options, logger);
  try {
    const to = at(name);
    return await exportYard({ records, series: yard.series, to, madeBy: '0.1.0', nowMs, onProgress });
  } finally {
    await records.close();
  }
}

async function importInto(yard: OpenYard, name: string) {
  const records = openTransfer(yard.options, logger);
  try {
    const { marks } = yard.records;
    return await importYard({ from: at(name), records, marks, series: yard.series, knownSteps, onProgress });
  } finally {
    await records.close();
  }
}

const rowsOf = async (name: string, table: string): Promise<Record<string, unknown>[]> => {
  const text = await readFile(join(at(name), tableFile(table)), 'utf8');
  return text
    .split('\n')
    .filter(Boolean)
    .map((line) => JSON.parse(line));
};

/** Records furnished and exported, imported into another database, and exported from there once more. */
function roundTrip(
  name: string,
  database: () => Promise<RecordsOptions | undefined>,
  when: typeof describe = describe,
): void {
  when(`a yard exported and imported, ${name}`, () => {
    it('has the same rows, the same readings and the same sums, and no cursor into the past', async () => {
      const yard = await openYard('old', await database());
      await furnishRecords(yard.records);
      await yard.series.append(readings());
      const first = await exportOf(yard, 'first');
      const other = await openYard('new', await database());
      const { readings: count } = await importInto(other, 'first');
      expect(count).toBe(23_030);
      const second = await exportOf(other, 'second');
      expect(second.tables).toEqual(first.tables);
      expect(second.channels).toEqual(first.channels);
      const sums = ({ files }: ExportManifest) =>
        files.filter((file) => file.name !== tableFile('messages')).map((file) => Object.values(file));
      expect(sums(second)).toEqual(sums(first));
      expect(await other.records.marks.get('rules:cursor')).toBe('23030');
    }, 60_000);
  });
}

roundTrip('in SQLite', async () => undefined);

const hasPostgres = findPostgres() !== null;
let server: PostgresServer | null = null;
beforeAll(async () => {
  if (hasPostgres) server = await startPostgres();
});
afterAll(() => server?.stop());
roundTrip(
  'in PostgreSQL',
  async () => ({ kind: 'postgres', connectionString: await server!.createDatabase() }),
  describeIf(hasPostgres, postgresMissing) as typeof describe,
);

describe('an export', () => {
  let yard: OpenYard;
  let manifest: ExportManifest;
  beforeEach(async () => {
    yard = await openYard('old');
    await furnishRecords(yard.records);
    await yard.series.append(readings());
    manifest = await exportOf(yard, 'out');
  });

  it('has a row of every table it names, and says how many', async () => {
    for (const [table, count] of Object.entries(manifest.tables)) {
      expect(await rowsOf('out', table), table).toHaveLength(count);
      // What nothing in this test yard makes.
      if (!['dutyPlans', 'inboundTexts'].includes(table)) expect(count, table).toBeGreaterThan(0);
    }
    expect((await rowsOf('out', 'limitsVersions'))[0]!.overrides).toEqual({
      'too-hot-ceiling': { limitCelsius: 68 },
    });
  });

  it('holds no secret in any file', async () => {
    const names = (await readdir(at('out'), { recursive: true, withFileTypes: true })).filter((file) =>
      file.isFile(),
    );
    expect(names.length).toBeGreaterThan(25);
    for (const { parentPath, name } of names) {
      const text = await readFile(join(parentPath, name), 'utf8');
      for (const [what, secret] of Object.entries(secretsWithin))
        expect(text.includes(secret), `${what} in ${name}`).toBe(false);
    }
  });

  it('gives good readings as SenML any reader takes, with name and unit, in packs of bounded size', async () => {
    const packs = (await readdir(at('out/senml'))).filter((name) => name.includes('core'));
    expect(packs.length).toBe(3);
    const records = [];
    for (const name of packs.sort()) {
      const bytes = await readFile(at(`out/senml/${name}`));
      records.push(...decodeSenml(bytes, { nowMs }));
    }
    const good = readings().filter(
      ({ channel, quality }) => channel === furnishedChannel && quality === 'good',
    );
    expect(records).toHaveLength(good.length);
    expect(records[0]).toMatchObject({ name: furnishedChannel, unit: 'Cel', value: good[0]!.value });
    expect(records.at(-1)).toMatchObject({ timeMs: good.at(-1)!.timeMs });
  });

  it('gives every channel its own CSV, also one whose name is no file name', async () => {
    const {
      file,
      readings: count,
      unit,
    } = manifest.channels.find(({ channel }) => channel === strangeChannel)!;
    const lines = (await readFile(join(at('out'), file), 'utf8')).split('\r\n');
    expect(lines[0]).toBe('time,time_ms,value,raw_value,quality,reason');
    expect(lines[4]).toBe(
      `2026-03-04T00:00:00.000Z,${startMs + 3 * 86_400_000},${8 + 3 / 7},${8 + 3 / 7},suspect,outlier`,
    );
    expect([count, unit, lines.length]).toEqual([30, null, 32]);
  });

  it('is not put over anything', async () => {
    await expect(exportOf(yard, 'out')).rejects.toThrow(/not empty/);
  });
});

describe('an import', () => {
  let yard: OpenYard;
  beforeEach(async () => {
    yard = await openYard('old');
    await furnishRecords(yard.records);
    await yard.series.append(readings().slice(-30));
    await exportOf(yard, 'out');
  });

  it('lets nobody and no probe in by an old secret, and sends nothing that was unsent', async () => {
    const other = await openYard('new');
    await importInto(other, 'out');
    const person = (await other.records.people.byLogin('marta'))!;
    expect(await other.records.people.passwordHash(person.id)).toBeNull();
    const [probe] = await other.records.probes.list(person.yardId);
    expect(await other.records.probes.secretHash(probe!.id)).toBe('0'.repeat(64));
    expect(await other.records.messages.nextDueMs()).toBeNull();
    const { counts } = await other.records.messages.standing();
    expect(counts).toMatchObject({ sent: 1, waiting: 0, sending: 0, expired: 1 });
  });

  it('goes into an empty yard only, and leaves one that is there as it is', async () => {
    await expect(importInto(yard, 'out')).rejects.toThrow(/a yard here already/);
    const other = await openYard('new');
    await other.series.append(readings().slice(0, 1));
    await expect(importInto(other, 'out')).rejects.toThrow(/a yard here already/);
    expect(await other.records.yards.list()).toEqual([]);
  });

  it('finds changed and newer exports out before it writes anything', async () => {
    const other = await openYard('new');
    const file = join(at('out'), tableFile('piles'));
    const text = await readFile(file, 'utf8');
    await writeFile(file, text.replace('Cage 1', 'Cage 9'));
    await expect(importInto(other, 'out')).rejects.toThrow(/piles\.json was changed or damaged/);
    await writeFile(file, text);
    const manifest = at('out/export.json');
    const told = await readFile(manifest, 'utf8');
    await writeFile(manifest, told.replace('0001-start', '9999-later'));
    await expect(importInto(other, 'out')).rejects.toThrow(/newer version/);
    expect(await other.records.yards.list()).toEqual([]);
  });
});
