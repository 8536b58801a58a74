import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { setTimeout as sleep } from 'node:timers/promises';

interface Taken {
  readonly id: string;
  readonly to: string;
  readonly text: string;
  /** Path and query it was sent to, by which a test tells senders apart. */
  readonly path: string;
}

/** A text gateway that remembers under which key each text came; it honours no key, so doubles show. */
export async function openKeyedGateway(takesMs = 0) {
  const taken: Taken[] = [];
  const server = createServer(async (request, response) => {
    if (request.method !== 'POST') return void response.end();
    let body = '';
    for await (const piece of request) body += piece;
    taken.push({ ...JSON.parse(body), path: request.url });
    if (takesMs > 0) await sleep(takesMs);
    response.end('{}');
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    taken,
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/send`,
    /** Keys that came more than once. */
    doubled: () => [...Map.groupBy(taken, ({ id }) => id)].flatMap(([id, all]) => (all.length > 1 ? id : [])),
    close: () => {
      server.closeAllConnections();
      return new Promise((resolve) => server.close(resolve));
    },
  };
}
