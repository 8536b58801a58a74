import { HttpError, InfluxDB } from '@influxdata/influxdb-client';
import { ArchiveFault } from '../archive.ts';
import { faultOf } from './faults.ts';
import type { InfluxRow } from './influxQl.ts';
import type { InfluxSettings } from './settings.ts';

/** The few requests we make of InfluxDB, over the official client's transport. All reject with ArchiveFault. */
export interface InfluxHttp {
  readonly place: string;
  /** Sends lines; resolves only when the server said 204 to this very request. */
  write(lines: string, signal?: AbortSignal): Promise<void>;
  /** Rows of a SELECT; times are epoch ms in the column `time`. */
  select(statement: string): Promise<InfluxRow[]>;
  /** Runs a statement that changes something (version 1). */
  execute(statement: string): Promise<void>;
  /** Deletes by a predicate (version 2). */
  deleteWhere(predicate: string, beforeMs: number): Promise<void>;
}

interface QueryAnswer {
  readonly results?: readonly {
    readonly error?: string;
    readonly series?: readonly {
      readonly columns: readonly string[];
      readonly values: readonly unknown[][];
    }[];
  }[];
}

/**
 * The client's own write queue is not used: it keeps batches in memory, drops them after its retries, resolves `close()`
 * whatever became of them, and takes 201 (3.x: only a part was written) for success. Its transport answers for one
 * request, and that is what the forwarder needs to know.
 */
export function createInfluxHttp(settings: InfluxSettings): InfluxHttp {
  const place = `InfluxDB at ${new URL(settings.url).host}, ${settings.version === '2' ? 'bucket' : 'database'} "${settings.database}"`;
  const timeoutMs = settings.timeoutSeconds * 1000;
  const { transport } = new InfluxDB(connection(settings, timeoutMs));
  const deadline = (signal?: AbortSignal) =>
    AbortSignal.any([AbortSignal.timeout(timeoutMs), ...(signal === undefined ? [] : [signal])]);

  async function ask(method: string, path: string, body: string, type: string, signal?: AbortSignal) {
    let status = 0;
    // The client's own time limit is for silence only and leaves the connection open; a deadline ends both.
    const headers = { 'content-type': type };
    const options = { method, headers, gzipThreshold: 1000, signal: deadline(signal) };
    try {
      const answer: unknown = await transport.request(path, body, options, (_headers, code) => {
        status = code ?? 0;
      });
      return { status, answer };
    } catch (error) {
      throw faultOf(error, place);
    }
  }

  async function query(method: string, statement: string): Promise<InfluxRow[]> {
    const { answer } = await ask(method, queryPath(settings, statement), '', plain);
    return rowsOf(parseAnswer(answer, place), place);
  }

  return {
    place,
    async write(lines, signal) {
      const { status, answer } = await ask('POST', writePath(settings), lines, plain, signal);
      if (status !== 204) throw notWritten(status, answer, place);
    },
    select: (statement) => query('GET', statement),
    async execute(statement) {
      await query('POST', statement);
    },
    async deleteWhere(predicate, beforeMs) {
      const window = { start: '1678-01-01T00:00:00Z', stop: new Date(beforeMs).toISOString() };
      const address = `/api/v2/delete?${new URLSearchParams({ org: settings.org ?? '', bucket: settings.database })}`;
      await ask('POST', address, JSON.stringify({ ...window, predicate }), 'application/json');
    },
  };
}

const plain = 'text/plain; charset=utf-8';

function connection(settings: InfluxSettings, timeoutMs: number) {
  const { url, token, user, password } = settings;
  const basic = Buffer.from(`${user ?? ''}:${password ?? ''}`).toString('base64');
  return {
    url,
    timeout: timeoutMs + 1000,
    ...(token === null ? {} : { token }),
    ...(token === null && user !== null ? { headers: { authorization: `Basic ${basic}` } } : {}),
  };
}

function writePath({ writePath: given, version, database, retentionPolicy, org }: InfluxSettings): string {
  if (given !== null) return given;
  if (version !== '1') {
    return `/api/v2/write?${new URLSearchParams({ org: org ?? '', bucket: database, precision: 'ms' })}`;
  }
  const policy = retentionPolicy === null ? {} : { rp: retentionPolicy };
  return `/write?${new URLSearchParams({ db: database, precision: 'ms', ...policy })}`;
}

function queryPath({ database, retentionPolicy }: InfluxSettings, statement: string): string {
  const policy = retentionPolicy === null ? {} : { rp: retentionPolicy };
  return `/query?${new URLSearchParams({ db: database, epoch: 'ms', ...policy, q: statement })}`;
}

/** 201 is 3.x saying that a part of the lines was refused; anything else is not InfluxDB's word for "written". */
function notWritten(status: number, answer: unknown, place: string): ArchiveFault {
  if (status === 201) {
    const text = typeof answer === 'string' ? answer : JSON.stringify(answer);
    return faultOf(new HttpError(400, 'a part was not written', text), place);
  }
  return new ArchiveFault('away', `${place} answered ${status} where 204 means written: is this InfluxDB?`);
}

function parseAnswer(answer: unknown, place: string): QueryAnswer {
  if (typeof answer === 'object' && answer !== null && 'results' in answer) return answer as QueryAnswer;
  throw new ArchiveFault('away', `${place} answered a question in a way InfluxDB does not`);
}

/** Errors of a statement come with status 200. */
function rowsOf({ results = [] }: QueryAnswer, place: string): InfluxRow[] {
  const error = results.find((result) => result.error !== undefined)?.error;
  if (error !== undefined) {
    const kind = /not found/.test(error) ? 'not-found' : 'refused';
    throw new ArchiveFault(kind, `${place} answered: ${error}`);
  }
  return results.flatMap(({ series = [] }) =>
    series.flatMap(({ columns, values }) =>
      values.map((row) => Object.fromEntries(columns.map((column, index) => [column, row[index]]))),
    ),
  );
}
