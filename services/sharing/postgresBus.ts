import pg from 'pg';
import type { BaseLogger } from 'pino';
import { readText, textsOf } from './changeText.ts';
import { createListeners } from './inProcessBus.ts';
import type { Change, ChangeBus } from './port.ts';

const channel = 'tilthwatch_changes';
/** Changes are gathered this long: thirty piles judged in one pass, or a hundred commits a second, are one notification. */
const gatherMs = 100;
/** While others cannot be heard everybody looks this often, and a new connection is tried. */
const missedEveryMs = 5_000;
/** A connection that died without a word is found by asking. */
const askEveryMs = 15_000;
/** Without a connection no more than this waits to be told; what is dropped, others find by looking. */
const mostGathered = 5_000;

export interface PostgresBusOptions {
  readonly connectionString: string;
  /** Tells this process from the others: what it told itself it has already heard. */
  readonly processId: string;
  readonly logger: Pick<BaseLogger, 'info' | 'warn' | 'error'>;
}

/**
 * Changes travel by LISTEN/NOTIFY over one connection of its own. Nobody relies on it: after a lost connection, and now
 * and then while there is none, `missed` makes everybody look.
 */
export async function openPostgresBus(options: PostgresBusOptions): Promise<ChangeBus> {
  const bus = new PostgresBus(options);
  await bus.connect();
  return bus;
}

class PostgresBus implements ChangeBus {
  readonly #options: PostgresBusOptions;
  readonly #listeners;
  readonly #timer: NodeJS.Timeout;
  readonly #asking: NodeJS.Timeout;
  #client: pg.Client | null = null;
  #connecting: Promise<void> | null = null;
  #gathered: Change[] = [];
  #gathering: NodeJS.Timeout | null = null;
  #sending: Promise<unknown> = Promise.resolve();
  #isClosed = false;

  constructor(options: PostgresBusOptions) {
    this.#options = options;
    this.#listeners = createListeners((error) =>
      options.logger.error({ err: error }, 'whoever was told of a change failed'),
    );
    this.#timer = setInterval(() => this.#lookForConnection(), missedEveryMs).unref();
    this.#asking = setInterval(() => void this.#ask(), askEveryMs).unref();
  }

  tell(change: Change): void {
    this.#listeners.call(change);
    if (this.#gathered.length < mostGathered) this.#gathered.push(change);
    this.#gathering ??= setTimeout(() => this.#send(), gatherMs);
  }

  listen: ChangeBus['listen'] = (kind, listener) => this.#listeners.add(kind, listener);

  isConnected = (): boolean => this.#client !== null;

  async close(): Promise<void> {
    this.#send();
    this.#isClosed = true;
    clearInterval(this.#timer);
    clearInterval(this.#asking);
    await this.#connecting?.catch(() => {});
    await this.#sending;
    const client = this.#client;
    this.#client = null;
    await client?.end().catch(() => {});
  }

  /** Rejects when the database cannot be reached. */
  connect(): Promise<void> {
    this.#connecting ??= this.#open().finally(() => {
      this.#connecting = null;
    });
    return this.#connecting;
  }

  async #open(): Promise<void> {
    const client = new pg.Client({
      connectionString: this.#options.connectionString,
      connectionTimeoutMillis: 10_000,
      query_timeout: 10_000,
      keepAlive: true,
      application_name: 'tilthwatch changes',
    });
    const end = () => this.#ended(client);
    client.on('error', end);
    client.on('end', end);
    client.on('notification', ({ payload }) => this.#heard(payload ?? ''));
    try {
      await client.connect();
      await client.query(`LISTEN ${channel}`);
    } catch (error) {
      void client.end().catch(() => {});
      throw error;
    }
    if (this.#isClosed) await client.end();
    else this.#client = client;
  }

  #ended(client: pg.Client): void {
    if (this.#client !== client) return;
    this.#client = null;
    if (this.#isClosed) return;
    this.#options.logger.warn('changes of other processes cannot be heard: looking every 5 s instead');
    void client.end().catch(() => {});
  }

  #lookForConnection(): void {
    if (this.#client !== null || this.#isClosed) return;
    this.#listeners.call({ kind: 'missed' });
    this.connect().then(
      () => {
        this.#options.logger.info('changes of other processes are heard again');
        this.#listeners.call({ kind: 'missed' });
      },
      () => {},
    );
  }

  async #ask(): Promise<void> {
    const client = this.#client;
    await client?.query('SELECT 1').catch(() => this.#ended(client));
  }

  #heard(payload: string): void {
    const text = readText(payload);
    if (text === null || text.from === this.#options.processId) return;
    for (const change of text.changes) this.#listeners.call(change);
  }

  #send(): void {
    if (this.#gathering !== null) clearTimeout(this.#gathering);
    this.#gathering = null;
    const changes = this.#gathered;
    this.#gathered = [];
    const client = this.#client;
    if (changes.length === 0 || client === null) return;
    for (const text of textsOf(this.#options.processId, changes)) {
      const sent = client.query('SELECT pg_notify($1, $2)', [channel, text]);
      this.#sending = sent.catch(() => this.#ended(client));
    }
  }
}
