import type { Duplex } from 'node:stream';
import type { AtEngine } from './atEngine.ts';
import { AtLost, ModemNotReady } from './atErrors.ts';
import type { ModemMode } from './mode.ts';
import { openSession, type RefusedPins } from './session.ts';
import type { ModemSettings } from './settings.ts';
import type { Unsolicited } from './unsolicited.ts';

export interface ModemLineOptions {
  readonly open: () => Promise<Duplex>;
  readonly mode: ModemMode;
  readonly settings: ModemSettings;
  onUnsolicited(said: Unsolicited): void;
  /** The modem is ready, for the first time or again. */
  onReady(): void;
}

/** The line to a modem that comes and goes: opened when needed, opened anew after the modem hung or was pulled out. */
export interface ModemLine {
  /** Works with the modem. Throws what the work throws; after AtLost the line is opened anew the next time. */
  use<Value>(work: (engine: AtEngine) => Promise<Value>): Promise<Value>;
  close(): Promise<void>;
}

export function createModemLine(options: ModemLineOptions): ModemLine {
  const refusedPins: RefusedPins = new Set();
  let session: Promise<AtEngine> | null = null;
  let isClosed = false;

  async function start(): Promise<AtEngine> {
    const { mode, settings, onUnsolicited } = options;
    const stream = await options.open();
    const engine = await openSession(stream, mode, settings, refusedPins, {
      onUnsolicited,
      onGone: () => drop(),
    });
    if (!isClosed) return engine;
    engine.close();
    throw new ModemNotReady('the modem channel is closed', false);
  }

  async function ready(): Promise<AtEngine> {
    if (isClosed) throw new ModemNotReady('the modem channel is closed', false);
    const isNew = session === null;
    session ??= start();
    const mine = session;
    try {
      const engine = await mine;
      if (isNew) options.onReady();
      return engine;
    } catch (error) {
      if (session === mine) session = null;
      // Opened just now and silent already: waiting does not help.
      if (error instanceof AtLost) throw new ModemNotReady(`modem cannot be used: ${error.message}`, true);
      throw error;
    }
  }

  function drop(): void {
    void session?.then(
      (engine) => engine.close(),
      () => {},
    );
    session = null;
  }

  return {
    async use(work) {
      const engine = await ready();
      const mine = session;
      try {
        return await work(engine);
      } catch (error) {
        if (error instanceof AtLost && session === mine) drop();
        throw error;
      }
    },
    async close() {
      isClosed = true;
      const pending = session;
      drop();
      await pending?.catch(() => {});
    },
  };
}
