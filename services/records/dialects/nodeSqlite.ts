import { DatabaseSync, type SQLInputValue, type StatementSync } from 'node:sqlite';
import { setTimeout as sleep } from 'node:timers/promises';
import {
  CompiledQuery,
  type DatabaseConnection,
  type Dialect,
  type Driver,
  type QueryResult,
  SqliteAdapter,
  SqliteDialect,
} from 'kysely';
import { NodeSqliteCompiler } from './nodeSqliteCompiler.ts';

/** How long a statement waits, asleep, for another process to finish its write. */
const busyWaitMs = 10_000;
/** How long SQLite itself may hold up the event loop waiting: enough for another process's usual commit. */
const busyTimeoutMs = 20;
const busyCode = 5;
const statementsKept = 200;

/** A kysely dialect over node:sqlite: one connection, whose transactions take turns. */
export function nodeSqliteDialect(file: string): Dialect {
  return new NodeSqliteDialect(file);
}

class NodeSqliteDialect extends SqliteDialect {
  readonly #file: string;
  constructor(file: string) {
    // The parent wants a better-sqlite3 handle, which only its own driver would use.
    super({ database: () => Promise.reject(new Error('the node:sqlite driver opens its own file')) });
    this.#file = file;
  }
  override createDriver = () => new NodeSqliteDriver(this.#file);
  override createQueryCompiler = () => new NodeSqliteCompiler();
  override createAdapter = () => new NodeSqliteAdapter();
}

/** Kysely leaves this off for SQLite; SQLite does roll back changed tables, so a failed migration leaves no trace. */
class NodeSqliteAdapter extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true;
  }
}

class NodeSqliteDriver implements Driver {
  readonly #file: string;
  #connection: NodeSqliteConnection | null = null;
  constructor(file: string) {
    this.#file = file;
  }
  async init() {
    const database = new DatabaseSync(this.#file, { timeout: busyTimeoutMs });
    this.#connection = new NodeSqliteConnection(database);
    // Full sync: a text already sent or an alarm already acknowledged must not be forgotten when power fails.
    for (const pragma of ['journal_mode = wal', 'synchronous = full', 'foreign_keys = on']) {
      await this.#connection.executeQuery(CompiledQuery.raw(`pragma ${pragma}`));
    }
  }
  async acquireConnection() {
    if (this.#connection === null) throw new Error('the records file is not open');
    return this.#connection;
  }
  /** Immediate: a read that later turns into a write would fail at once if another process wrote in between. */
  async beginTransaction(connection: DatabaseConnection) {
    await connection.executeQuery(CompiledQuery.raw('begin immediate'));
  }
  async commitTransaction(connection: DatabaseConnection) {
    await connection.executeQuery(CompiledQuery.raw('commit'));
  }
  /** SQLite may have rolled back by itself, e.g. on a full disk; the first error is the one to show. */
  async rollbackTransaction() {
    this.#connection?.rollBack();
  }
  async releaseConnection() {}
  async destroy() {
    this.#connection?.close();
    this.#connection = null;
  }
}

class NodeSqliteConnection implements DatabaseConnection {
  readonly #database: DatabaseSync;
  readonly #statements = new Map<string, StatementSync>();
  constructor(database: DatabaseSync) {
    this.#database = database;
  }

  /** Waits asleep, not blocking the event loop, while another process writes. Inside a transaction nobody else can. */
  async executeQuery<Row>(query: CompiledQuery): Promise<QueryResult<Row>> {
    const giveUpAt = performance.now() + busyWaitMs;
    for (;;) {
      try {
        return this.#run(query);
      } catch (error) {
        if (!isBusy(error) || this.#database.isTransaction || performance.now() > giveUpAt) throw error;
        await sleep(2 + Math.random() * 8);
      }
    }
  }

  #run<Row>(query: CompiledQuery): QueryResult<Row> {
    const statement = this.#prepare(query.sql);
    const parameters = query.parameters as readonly SQLInputValue[];
    if (statement.columns().length > 0) return { rows: statement.all(...parameters) as Row[] };
    const { changes } = statement.run(...parameters);
    return { rows: [], numAffectedRows: BigInt(changes) };
  }

  #prepare(sql: string): StatementSync {
    const kept = this.#statements.get(sql);
    if (kept) return kept;
    if (this.#statements.size >= statementsKept) this.#statements.clear();
    const statement = this.#database.prepare(sql);
    this.#statements.set(sql, statement);
    return statement;
  }

  // biome-ignore lint/correctness/useYield: the records never stream; the interface asks for the method.
  async *streamQuery(): AsyncIterableIterator<never> {
    throw new Error('streaming is not supported');
  }

  rollBack(): void {
    if (this.#database.isTransaction) this.#database.exec('rollback');
  }

  close(): void {
    this.#statements.clear();
    this.#database.close();
  }
}

function isBusy(error: unknown): boolean {
  return error instanceof Error && 'errcode' in error && (Number(error.errcode) & 0xff) === busyCode;
}
