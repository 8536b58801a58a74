import { createServer, type IncomingHttpHeaders, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Mood } from './channelRig.ts';

export interface HttpCall {
  readonly method: string;
  readonly path: string;
  readonly headers: IncomingHttpHeaders;
  readonly body: Buffer;
}

export interface StandInHttp {
  readonly port: number;
  /** Calls that were answered with a yes, oldest first. */
  readonly taken: HttpCall[];
  setMood(mood: Mood): void;
  goAway(): Promise<void>;
  comeBack(): Promise<void>;
}

/** Status of each mood; what the channel's own protocol says. */
export type MoodStatuses = Readonly<Record<Exclude<Mood, 'silent' | 'breaks-off'>, number>>;

/** A server on this machine that answers every call in its present mood. */
export async function openStandInHttp(statuses: MoodStatuses, yes = '{}'): Promise<StandInHttp> {
  const taken: HttpCall[] = [];
  let mood: Mood = 'well';
  const answer = (call: HttpCall, response: ServerResponse) => {
    if (mood === 'silent') return;
    if (mood === 'breaks-off') response.destroy();
    else {
      if (mood === 'well' && call.method !== 'HEAD') taken.push(call);
      response.writeHead(statuses[mood], mood === 'busy' ? { 'retry-after': '7' } : {});
      response.end(mood === 'well' ? yes : 'no');
    }
  };
  let server = await listen(0, answer);
  const { port } = server.address() as AddressInfo;
  return {
    port,
    taken,
    setMood: (next) => {
      mood = next;
    },
    async goAway() {
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    },
    async comeBack() {
      server = await listen(port, answer);
    },
  };
}

async function listen(
  port: number,
  answer: (call: HttpCall, response: ServerResponse) => void,
): Promise<Server> {
  const server = createServer(async (request, response) => {
    const pieces: Buffer[] = [];
    for await (const piece of request) pieces.push(piece as Buffer);
    const { method = '', url: path = '', headers } = request;
    answer({ method, path, headers, body: Buffer.concat(pieces) }, response);
  });
  await new Promise<void>((resolve) => server.listen(port, '127.0.0.1', resolve));
  return server;
}
