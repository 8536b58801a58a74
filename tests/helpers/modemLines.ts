import { type ChildProcess, spawn } from 'node:child_process';
import { constants, existsSync, openSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { type AddressInfo, createServer, type Server, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Duplex, duplexPair } from 'node:stream';
import { ReadStream } from 'node:tty';
import { ModemNotReady } from '../../services/notify/modem/atErrors.ts';
import { openPort } from '../../services/notify/modem/openPort.ts';
import { eventually } from './eventually.ts';
import { firstExisting } from './requirement.ts';
import type { StandInModem } from './standInModem.ts';

/** A line with a stand-in modem at its far end. */
export interface ModemWire {
  /** Opens our end. */
  readonly open: () => Promise<Duplex>;
  goAway(): Promise<void>;
  comeBack(): Promise<void>;
  /** Cuts the line in the middle of whatever goes on; it can be opened again. */
  breakLine(): void;
  close(): Promise<void>;
}

/** In memory: nothing between us and the modem. */
export async function memoryWire(modem: StandInModem): Promise<ModemWire> {
  let isThere = true;
  let ours: Duplex | null = null;
  return {
    async open() {
      if (!isThere) throw new ModemNotReady('the port cannot be opened: is the modem plugged in?', true);
      const [near, far] = duplexPair();
      ours = near;
      modem.attach(far);
      return near;
    },
    async goAway() {
      isThere = false;
      ours?.destroy();
    },
    async comeBack() {
      isThere = true;
    },
    breakLine: () => void ours?.destroy(),
    close: async () => void ours?.destroy(),
  };
}

/** A serial server: the modem behind a TCP port of this machine. */
export async function tcpWire(modem: StandInModem): Promise<ModemWire> {
  const sockets = new Set<Socket>();
  const listen = (port: number) =>
    new Promise<Server>((resolve) => {
      const server = createServer({ noDelay: true }, (socket) => {
        sockets.add(socket);
        modem.attach(socket);
      });
      server.listen(port, '127.0.0.1', () => resolve(server));
    });
  let server = await listen(0);
  const { port } = server.address() as AddressInfo;
  const breakLine = () => {
    for (const socket of sockets) socket.destroy();
    sockets.clear();
  };
  const goAway = async () => {
    breakLine();
    await new Promise((resolve) => server.close(resolve));
  };
  return {
    open: () => openPort({ port: `tcp://127.0.0.1:${port}`, baud: 115_200 }),
    goAway,
    async comeBack() {
      server = await listen(port);
    },
    breakLine,
    close: goAway,
  };
}

const socat = firstExisting(['/usr/bin/socat', '/usr/local/bin/socat', '/opt/homebrew/bin/socat']);
export const hasSocat = socat !== null;

/** A pair of pseudo-terminals: the modem at a device like any serial port, opened and set up as one. */
export async function terminalWire(modem: StandInModem): Promise<ModemWire> {
  const folder = await mkdtemp(join(tmpdir(), 'tilth-modem-'));
  const [near, far] = [join(folder, 'near'), join(folder, 'far')];
  let pair: ChildProcess | null = null;
  const start = async () => {
    pair = spawn(socat!, [`pty,raw,echo=0,link=${near}`, `pty,raw,echo=0,link=${far}`], { stdio: 'ignore' });
    await eventually('the pseudo-terminals are there', () => existsSync(near) && existsSync(far));
    modem.attach(new ReadStream(openSync(far, constants.O_RDWR | constants.O_NOCTTY), { writable: true }));
  };
  const end = async () => {
    const ending = pair;
    pair = null;
    if (ending === null) return;
    ending.kill();
    await eventually('the pseudo-terminals are gone', () => !existsSync(near) && !existsSync(far));
  };
  await start();
  return {
    open: () => openPort({ port: near, baud: 115_200 }),
    goAway: end,
    comeBack: start,
    breakLine: () => void end().then(start),
    async close() {
      await end();
      await rm(folder, { recursive: true });
    },
  };
}
