import { CamelCasePlugin, Kysely, sql } from 'kysely';
import type { Logger } from 'pino';
import { nodeSqliteDialect } from '../dialects/nodeSqlite.ts';
import { postgresDialect } from '../dialects/postgres.ts';
import type { RecordsOptions } from '../openRecords.ts';
import { type OpenRow, RecordsError, type RecordsTransfer } from '../port.ts';
import { leftOut, type OpenTable, openTables, type Row } from './tables.ts';

const usualRowsAtOnce = 5_000;
const rowsPerInsert = 200;

/** Tables are known by name only here; what rows look like is the schema's matter on both sides. */
type AnyTables = Record<string, Record<string, unknown>>;

const leaving = new Map(
  Object.entries(openTables).flatMap(([name, treatment]) =>
    typeof treatment === 'string' ? [] : [[name, treatment] as const],
  ),
);

/** Opens records, whose schema must be there already, for reading all that may leave or writing what came. */
export function openTransfer(options: RecordsOptions, logger: Logger): RecordsTransfer {
  const dialect =
    options.kind === 'postgres' ? postgresDialect(options, logger) : nodeSqliteDialect(options.file);
  const db = new Kysely<AnyTables>({ dialect, plugins: [new CamelCasePlugin()] });
  return {
    tables: [...leaving.keys()],
    leftOut,
    async steps() {
      const { rows } = await sql<{ name: string }>`select name from records_migration order by name`.execute(
        db,
      );
      return rows.map(({ name }) => name);
    },
    async isEmpty() {
      for (const table of ['yards', 'people'])
        if ((await db.selectFrom(table).selectAll().limit(1).execute()).length > 0) return false;
      return true;
    },
    readAll: (onPage) =>
      inOneMoment(db, options, async (moment) => {
        for (const [name, table] of leaving)
          for await (const rows of pagesOf(moment, name, table)) await onPage(name, rows);
      }),
    writeAll: (pages) => db.transaction().execute((step) => writeTables(step, pages)),
    close: () => db.destroy(),
  };
}

/** PostgreSQL shows one moment throughout such a transaction; an SQLite file is read alone, as a copy of its own. */
function inOneMoment(
  db: Kysely<AnyTables>,
  { kind }: RecordsOptions,
  work: (moment: Kysely<AnyTables>) => Promise<void>,
): Promise<void> {
  const transaction = db.transaction();
  return (kind === 'postgres' ? transaction.setIsolationLevel('repeatable read') : transaction).execute(work);
}

async function* pagesOf(
  db: Kysely<AnyTables>,
  name: string,
  table: OpenTable,
): AsyncGenerator<readonly OpenRow[]> {
  const { rowsAtOnce = usualRowsAtOnce } = table;
  for (let offset = 0; ; offset += rowsAtOnce) {
    let query = db.selectFrom(name).selectAll().limit(rowsAtOnce).offset(offset);
    for (const column of table.order) query = query.orderBy(column);
    const rows: Row[] = await query.execute();
    const { leaves = () => true } = table;
    yield rows.filter(leaves).map((row) => opened(row, table));
    if (rows.length < rowsAtOnce) return;
  }
}

function opened(
  row: Row,
  { order, without = [], json = [], bytes = [], clean = (same) => same }: OpenTable,
): OpenRow {
  const stays = [...without, ...order.filter((column) => column === 'sequence')];
  const kept = Object.entries(clean(row)).filter(([column]) => !stays.includes(column));
  return Object.fromEntries(
    kept.map(([column, value]) => {
      if (json.includes(column) && value !== null) return [column, JSON.parse(String(value))];
      if (bytes.includes(column)) return [column, Buffer.from(value as Uint8Array).toString('base64')];
      return [column, value];
    }),
  );
}

function closed(row: OpenRow, { json = [], bytes = [], arrive = (same) => same }: OpenTable): Row {
  const stored = Object.entries(row).map(([column, value]) => {
    if (json.includes(column) && value !== null) return [column, JSON.stringify(value)];
    if (bytes.includes(column)) return [column, Buffer.from(String(value), 'base64')];
    return [column, value];
  });
  return arrive(Object.fromEntries(stored));
}

async function writeTables(
  step: Kysely<AnyTables>,
  pages: (table: string) => AsyncIterable<readonly OpenRow[]>,
): Promise<Map<string, number>> {
  const counts = new Map<string, number>();
  for (const [name, table] of leaving) {
    counts.set(name, 0);
    for await (const page of pages(name)) {
      const rows = page.map((row) => closed(row, table));
      for (let at = 0; at < rows.length; at += rowsPerInsert)
        await insert(step, name, rows.slice(at, at + rowsPerInsert));
      counts.set(name, counts.get(name)! + rows.length);
    }
  }
  return counts;
}

async function insert(step: Kysely<AnyTables>, name: string, rows: readonly Row[]): Promise<void> {
  try {
    await step.insertInto(name).values(rows).execute();
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new RecordsError('row', `rows of ${name} cannot be stored: ${why}`);
  }
}
