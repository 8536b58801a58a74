import { createServer } from 'node:net';

/** The wanted port of this machine if nobody listens on it, else 0, which takes a free one. */
export function wantedOrFreePort(port: number): Promise<number> {
  return new Promise((resolve) => {
    const server = createServer();
    server.once('error', () => resolve(0));
    server.listen(port, '127.0.0.1', () => server.close(() => resolve(port)));
  });
}
