import { closeSync, mkdirSync, openSync } from 'node:fs';
import { dirname } from 'node:path';
import { CamelCasePlugin, type Dialect, Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';
import { type Logger, pino } from 'pino';
import { backUpPostgres } from './backUpPostgres.ts';
import { backUpSqlite } from './backup.ts';
import { nodeSqliteDialect } from './dialects/nodeSqlite.ts';
import { type PostgresOptions, postgresDialect } from './dialects/postgres.ts';
import { type MigrateOptions, migrate } from './migrate.ts';
import { allMigrations } from './migrations/all.ts';
import { oneAtATime } from './oneAtATime.ts';
import type { Records } from './port.ts';
import type { Schema } from './schema.ts';
import { alarmStore } from './stores/alarmStore.ts';
import { auditStore } from './stores/auditStore.ts';
import { contactWayStore } from './stores/contactWayStore.ts';
import { deedStore } from './stores/deedStore.ts';
import { designStore } from './stores/designStore.ts';
import { dutyStore } from './stores/dutyStore.ts';
import { errandStore } from './stores/errandStore.ts';
import { inboundTextStore } from './stores/inboundTextStore.ts';
import { journalStore } from './stores/journalStore.ts';
import { leaseStore, processStore } from './stores/leaseStore.ts';
import { limitsStore } from './stores/limitsStore.ts';
import { markStore } from './stores/markStore.ts';
import { messageStore } from './stores/messageStore.ts';
import { peopleStore } from './stores/peopleStore.ts';
import { pileStore } from './stores/pileStore.ts';
import { placementStore } from './stores/placementStore.ts';
import { probeStore } from './stores/probeStore.ts';
import { quarantineStore } from './stores/quarantineStore.ts';
import { sessionStore } from './stores/sessionStore.ts';
import { setupLinkStore } from './stores/setupLinkStore.ts';
import { statusStore } from './stores/statusStore.ts';
import { wallLinkStore } from './stores/wallLinkStore.ts';
import { wordingStore } from './stores/wordingStore.ts';
import { yardStore } from './stores/yardStore.ts';

export type RecordsOptions = (
  | { readonly kind: 'sqlite' /** Path of the database file; made with its folder. */; readonly file: string }
  | ({ readonly kind: 'postgres' } & PostgresOptions)
) & {
  /** How many undecodable messages are kept for people to look at; 500 when left out. */
  readonly quarantineKeep?: number;
  /** Steps to today's schema; tests give others. */
  readonly migrations?: Readonly<Record<string, Migration>>;
};

/**
 * Opens the records and brings their schema up to date. What has an older schema is copied first: an SQLite file beside
 * itself (`backup.ts`), a PostgreSQL database by its own pg_dump (`backUpPostgres.ts`) unless its operator does it.
 * @throws RecordsError on `schema` when a newer version of the program wrote them, else the database's own error
 */
export async function openRecords(
  options: RecordsOptions,
  logger: Logger = pino({ level: 'silent' }),
): Promise<Records> {
  const db = new Kysely<Schema>({ dialect: dialectOf(options, logger), plugins: [new CamelCasePlugin()] });
  try {
    await migrate(db.withoutPlugins(), {
      migrations: options.migrations ?? allMigrations,
      backUp: backUpOf(db, options, logger),
      ...(options.kind === 'postgres' && {
        alone: (work) => oneAtATime(options.connectionString, logger, work),
      }),
      logger,
    });
  } catch (error) {
    await db.destroy();
    throw error;
  }
  return recordsOver(db, options.quarantineKeep ?? 500);
}

function dialectOf(options: RecordsOptions, logger: Logger): Dialect {
  if (options.kind === 'postgres') return postgresDialect(options, logger);
  // Made by us and not by SQLite, so that nobody else on the machine may read people's numbers and password hashes.
  mkdirSync(dirname(options.file), { recursive: true });
  closeSync(openSync(options.file, 'a', 0o600));
  return nodeSqliteDialect(options.file);
}

function backUpOf(db: Kysely<Schema>, options: RecordsOptions, logger: Logger): MigrateOptions['backUp'] {
  return async (firstStep, stillPending) => {
    if (options.kind === 'postgres' && !options.backupFolder) {
      logger.warn({ firstStep }, 'the schema of the records changes; a copy of them is left to you');
      return;
    }
    const backup =
      options.kind === 'sqlite'
        ? await backUpSqlite(db.withoutPlugins(), options.file, firstStep, stillPending)
        : await backUpPostgres(options.connectionString, options.backupFolder!, firstStep);
    if (backup !== null) logger.info({ backup }, 'the records were copied before their schema changes');
  };
}

function recordsOver(db: Kysely<Schema>, quarantineKeep: number): Records {
  return {
    yards: yardStore(db),
    piles: pileStore(db),
    placements: placementStore(db),
    limits: limitsStore(db),
    journal: journalStore(db),
    designs: designStore(db),
    statuses: statusStore(db),
    alarms: alarmStore(db),
    messages: messageStore(db),
    duty: dutyStore(db),
    wordings: wordingStore(db),
    ways: contactWayStore(db),
    inbound: inboundTextStore(db),
    people: peopleStore(db),
    sessions: sessionStore(db),
    setupLinks: setupLinkStore(db),
    wallLinks: wallLinkStore(db),
    audit: auditStore(db),
    probes: probeStore(db),
    quarantine: quarantineStore(db, quarantineKeep),
    marks: markStore(db),
    leases: leaseStore(db),
    processes: processStore(db),
    deeds: deedStore(db),
    errands: errandStore(db),
    close: () => db.destroy(),
  };
}
