import { execFile } from 'node:child_process';
import { constants, openSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { connect } from 'node:net';
import type { Duplex } from 'node:stream';
import { isatty, ReadStream } from 'node:tty';
import { promisify } from 'node:util';
import { ModemNotReady } from './atErrors.ts';
import type { ModemSettings } from './settings.ts';

const connectMs = 10_000;

/**
 * The line to the modem, as bytes both ways. A serial port is set up by `stty` and read like a terminal, so no add-on
 * has to be built for each machine; a serial server is a TCP connection.
 * @throws ModemNotReady when it cannot be opened.
 */
export async function openPort({ port, baud }: Pick<ModemSettings, 'port' | 'baud'>): Promise<Duplex> {
  try {
    return port.startsWith('tcp:') ? await openTcp(new URL(port)) : await openSerial(port, baud);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    const reason = typeof code === 'string' ? ` (${code})` : '';
    throw new ModemNotReady(`the port ${port} cannot be opened${reason}: is the modem plugged in?`, true);
  }
}

function openTcp({ hostname, port }: URL): Promise<Duplex> {
  return new Promise((resolve, reject) => {
    const socket = connect({ host: hostname, port: Number(port), noDelay: true, keepAlive: true });
    const timer = setTimeout(
      () => socket.destroy(Object.assign(new Error(), { code: 'ETIMEDOUT' })),
      connectMs,
    );
    socket.once('error', (error) => {
      clearTimeout(timer);
      reject(error);
    });
    socket.once('connect', () => {
      clearTimeout(timer);
      resolve(socket);
    });
  });
}

async function openSerial(path: string, baud: number): Promise<Duplex> {
  const deviceFlag = process.platform === 'linux' ? '-F' : '-f';
  // Without O_NOCTTY the port could become our controlling terminal; without O_NONBLOCK opening waits for a carrier.
  const handle = await open(path, constants.O_RDWR | constants.O_NOCTTY | constants.O_NONBLOCK);
  try {
    if (!isatty(handle.fd)) throw Object.assign(new Error(), { code: 'ENOTTY' });
    // 8 bits, no parity, nothing translated, no echo; the carrier line is not looked at, and a close does not hang up.
    const settings = [String(baud), 'raw', '-echo', '-hupcl', 'clocal', 'cread', 'cs8', '-cstopb', '-parenb'];
    await promisify(execFile)('stty', [deviceFlag, path, ...settings], { timeout: connectMs });
    return terminalAt(path);
  } finally {
    await handle.close();
  }
}

/** The terminal stream owns its descriptor, so it gets one of its own. */
function terminalAt(path: string): Duplex {
  const descriptor = openSync(path, constants.O_RDWR | constants.O_NOCTTY | constants.O_NONBLOCK);
  return new ReadStream(descriptor, { readable: true, writable: true });
}
