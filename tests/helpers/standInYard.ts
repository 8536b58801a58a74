import { existsSync, readFileSync } from 'node:fs';
import { createServer, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { LiveChangeEvent, WallView } from '../../shared/api/types.ts';

const built = fileURLToPath(new URL('../../dashboards/dist', import.meta.url));
const types: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
};

/**
 * Serves the built wall with whatever yard a test makes up: two hundred piles, every alarm there is, a month in minutes.
 * What the service itself answers is proved elsewhere.
 */
export interface StandInYard {
  readonly url: string;
  /** The wall as it is from now on. */
  show(view: WallView): void;
  /** Tells every open wall. */
  announce(changes: readonly LiveChangeEvent[]): void;
  tick(nowMs: number): void;
  /** Cuts every live link, as a restart does. */
  cut(): void;
  /** How many piles screens have fetched so far. */
  pilesFetched(): number;
  stop(): Promise<void>;
}

export async function startStandInYard(first: WallView): Promise<StandInYard> {
  let view = first;
  let nextId = 0;
  let fetched = 0;
  const listeners = new Set<ServerResponse>();
  const tell = (event: string, data: unknown) => {
    nextId += 1;
    for (const listener of listeners)
      listener.write(`id: ${nextId}\nevent: ${event}\ndata: ${JSON.stringify(data)}\n\n`);
  };
  const server = createServer((request, response) => {
    const { pathname, searchParams } = new URL(request.url!, 'http://yard');
    if (pathname === '/api/live') {
      response.writeHead(200, { 'content-type': 'text/event-stream' });
      response.write('retry: 200\n\n');
      listeners.add(response);
      response.on('close', () => listeners.delete(response));
      tell('tick', { nowMs: view.nowMs, dataMs: view.dataMs });
    } else if (pathname === '/api/wall') {
      const asked = searchParams.get('piles')?.split(',');
      const piles = asked === undefined ? view.piles : view.piles.filter(({ id }) => asked.includes(id));
      fetched += piles.length;
      response.setHeader('content-type', 'application/json');
      response.end(JSON.stringify({ ...view, piles }));
    } else sendFile(response, pathname);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    show(now) {
      view = now;
    },
    announce(changes) {
      for (const change of changes) tell('change', change);
    },
    tick: (nowMs) => tell('tick', { nowMs, dataMs: nowMs }),
    cut() {
      for (const listener of listeners) listener.destroy();
    },
    pilesFetched: () => fetched,
    async stop() {
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}

function sendFile(response: ServerResponse, pathname: string): void {
  const file = `${built}${pathname === '/wall' ? '/wall.html' : pathname}`;
  const type = types[extname(file)];
  if (type === undefined || !existsSync(file)) {
    response.writeHead(404).end();
    return;
  }
  response.setHeader('content-type', type);
  response.end(readFileSync(file));
}
