import type { Kysely } from 'kysely';
import { type Migration, Migrator } from 'kysely/migration';
import type { Logger } from 'pino';
import { RecordsError } from './port.ts';

const historyTable = 'records_migration';

export interface MigrateOptions {
  readonly migrations: Readonly<Record<string, Migration>>;
  /**
   * Copies the database as it stands before the named step; null where that is the operator's own work. A copy made
   * while another process took the step is not kept: `stillPending` tells.
   */
  readonly backUp: ((firstStep: string, stillPending: () => Promise<boolean>) => Promise<void>) | null;
  /** Keeps other processes from copying and changing the schema at the same time, where the database can. */
  readonly alone?: (work: () => Promise<void>) => Promise<void>;
  readonly logger: Logger;
}

/**
 * Brings a database forward to today's schema in one transaction: all steps or none. Two processes may try at once.
 * @throws RecordsError on `schema` when a newer version of the program wrote the database; it is left untouched.
 */
// biome-ignore lint/suspicious/noExplicitAny: a migration runs against whatever schema it finds.
export async function migrate(db: Kysely<any>, options: MigrateOptions): Promise<void> {
  const alone = options.alone ?? ((work) => work());
  if ((await stepsPending(db, options)).pending.length > 0) await alone(() => bringForward(db, options));
}

// biome-ignore lint/suspicious/noExplicitAny: as above.
async function bringForward(db: Kysely<any>, options: MigrateOptions): Promise<void> {
  const { done, pending } = await stepsPending(db, options);
  const [firstStep] = pending;
  if (firstStep === undefined) return;
  if (done.length > 0)
    await options.backUp?.(firstStep, async () => !(await stepsDone(db)).includes(firstStep));
  options.logger.info({ steps: pending }, 'bringing the records to a new schema');
  const { error } = await new Migrator({
    db,
    provider: { getMigrations: async () => ({ ...options.migrations }) },
    migrationTableName: historyTable,
    migrationLockTableName: `${historyTable}_lock`,
  }).migrateToLatest();
  if (error !== undefined) throw error;
}

// biome-ignore lint/suspicious/noExplicitAny: as above.
async function stepsPending(db: Kysely<any>, { migrations }: MigrateOptions) {
  const known = Object.keys(migrations).sort();
  const done = await stepsDone(db);
  refuseNewer(done, known);
  return { done, pending: known.filter((name) => !done.includes(name)) };
}

// biome-ignore lint/suspicious/noExplicitAny: as above.
async function stepsDone(db: Kysely<any>): Promise<string[]> {
  const tables = await db.introspection.getTables();
  if (!tables.some(({ name }) => name === historyTable)) return [];
  const rows: { name: string }[] = await db.selectFrom(historyTable).select('name').orderBy('name').execute();
  return rows.map(({ name }) => name);
}

function refuseNewer(done: readonly string[], known: readonly string[]): void {
  const unknown = done.filter((name) => !known.includes(name));
  if (unknown.length === 0) return;
  throw new RecordsError(
    'schema',
    `the records were written by a newer version of the program (step ${unknown.join(', ')} is not known here, ` +
      `the newest known is ${known.at(-1)}); run that version, or go back to the backup it made before the step`,
  );
}
