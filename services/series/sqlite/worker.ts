/**
 * Thread entry: one SQLite connection answering calls one after another. The main thread keeps serving MQTT and the web
 * while a commit waits for the disk or a long range is thinned.
 */
import { parentPort, workerData } from 'node:worker_threads';
import { prepareAppend } from './appendGroup.ts';
import { type ReadingColumns, transferables } from './columns.ts';
import { openDatabase } from './database.ts';
import type { CallName, SeriesCalls, WorkerAnswer, WorkerRequest, WorkerSettings } from './protocol.ts';
import { prepareQueries } from './queries.ts';
import { prepareTrim } from './trim.ts';

type Handlers = {
  readonly [Name in CallName]?: (...values: SeriesCalls[Name]['arguments']) => SeriesCalls[Name]['answer'];
};

const settings = workerData as WorkerSettings;
const port = parentPort!;
const database = openDatabase(settings.file, settings.role);
const handlers: Handlers = {
  ...(settings.role === 'writer'
    ? { append: prepareAppend(database), trimStep: prepareTrim(database) }
    : prepareQueries(database)),
  close: () => {
    database.close();
    return null;
  },
};

port.on('message', (request: WorkerRequest) => {
  const reply = answer(request);
  const columns = 'answer' in reply ? columnsIn(reply.answer) : [];
  port.postMessage(reply, columns);
  if (request.call === 'close') port.close();
});
port.postMessage('ready');

function answer({ id, call, values }: WorkerRequest): WorkerAnswer {
  try {
    const handler = handlers[call] as (...values: readonly unknown[]) => unknown;
    return { id, answer: handler(...values) };
  } catch (error) {
    return { id, error: error instanceof Error ? error.message : String(error) };
  }
}

function columnsIn(value: unknown): ArrayBuffer[] {
  const isColumns = typeof value === 'object' && value !== null && 'timeMs' in value;
  return isColumns ? transferables(value as ReadingColumns) : [];
}
