import { Worker } from 'node:worker_threads';
import type { CallName, SeriesCalls, WorkerAnswer, WorkerSettings } from './protocol.ts';

/** The store could not do what was asked: disk full, file damaged, thread ended. Nothing was stored by the failed call. */
export class SeriesFault extends Error {
  override readonly name = 'SeriesFault';
}

interface Waiting {
  resolve(answer: unknown): void;
  reject(error: Error): void;
}

/** A line to one thread. */
export interface WorkerLink {
  call<Name extends CallName>(
    name: Name,
    values: SeriesCalls[Name]['arguments'],
    transfer?: ArrayBuffer[],
  ): Promise<SeriesCalls[Name]['answer']>;
  close(): Promise<void>;
}

/**
 * Starts the thread and resolves when its database is open; rejects with SeriesFault when it cannot be. Should the thread
 * end by itself later, what waits for it is rejected and the next call starts a new one.
 */
export async function openWorkerLink(settings: WorkerSettings): Promise<WorkerLink> {
  let running: Promise<RunningWorker> | null = null;
  function start(): Promise<RunningWorker> {
    const started: Promise<RunningWorker> = startWorker(settings, () => {
      if (running === started) running = null;
    });
    return started;
  }
  running = start();
  await running;
  return {
    async call(name, values, transfer = []) {
      running ??= start();
      return (await (await running).ask(name, values, transfer)) as never;
    },
    async close() {
      const ending = await running;
      running = null;
      await ending?.ask('close', [], []);
      await ending?.worker.terminate();
    },
  };
}

interface RunningWorker {
  readonly worker: Worker;
  ask(call: CallName, values: readonly unknown[], transfer: ArrayBuffer[]): Promise<unknown>;
}

function startWorker(settings: WorkerSettings, onExit: () => void): Promise<RunningWorker> {
  const worker = new Worker(new URL('./worker.ts', import.meta.url), { workerData: settings, execArgv: [] });
  const waiting = new Map<number, Waiting>();
  let cause = 'it ended without saying why';
  let nextId = 1;
  const ask: RunningWorker['ask'] = (call, values, transfer) =>
    new Promise((resolve, reject) => {
      const id = nextId++;
      waiting.set(id, { resolve, reject });
      worker.postMessage({ id, call, values }, transfer);
    });

  return new Promise((resolve, reject) => {
    worker.on('message', (message: WorkerAnswer | 'ready') => {
      if (message === 'ready') resolve({ worker, ask });
      else settle(waiting, message, settings.file);
    });
    worker.on('error', (error) => {
      cause = error instanceof Error ? error.message : String(error);
    });
    worker.on('exit', () => {
      const fault = new SeriesFault(`series store ${settings.file}: its thread ended: ${cause}`);
      onExit();
      reject(fault);
      for (const { reject: give } of waiting.values()) give(fault);
      waiting.clear();
    });
  });
}

function settle(waiting: Map<number, Waiting>, message: WorkerAnswer, file: string): void {
  const call = waiting.get(message.id);
  waiting.delete(message.id);
  if ('error' in message) call?.reject(new SeriesFault(`series store ${file}: ${message.error}`));
  else call?.resolve(message.answer);
}
