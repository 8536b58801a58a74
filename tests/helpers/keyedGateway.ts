import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';

/** A text gateway that remembers under which key each text came; it honours no key, so doubles show. */
export async function openKeyedGateway() {
  const taken: { readonly id: string; readonly to: string; readonly text: string }[] = [];
  const server = createServer(async (request, response) => {
    if (request.method !== 'POST') return void response.end();
    let body = '';
    for await (const piece of request) body += piece;
    taken.push(JSON.parse(body));
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
