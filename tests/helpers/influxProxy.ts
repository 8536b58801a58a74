import { once } from 'node:events';
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import { gunzipSync } from 'node:zlib';

/** What the stand-in does with a write before (or instead of) handing it to the real server behind it. */
export type Trouble =
  | { readonly kind: 'none' }
  /** Answers this status and body; the server behind never sees the write. */
  | { readonly kind: 'answers'; readonly status: number; readonly body: string; readonly type?: string }
  /** Writes, and says so too late. */
  | { readonly kind: 'slow'; readonly milliseconds: number }
  /** Writes, and the answer is lost with the connection. */
  | { readonly kind: 'loses-answers' }
  /** Refuses every batch in which this text occurs, whole. */
  | { readonly kind: 'refuses'; readonly text: string };

export interface InfluxProxy {
  readonly url: string;
  trouble: Trouble;
  /** The token to be shown; null lets everybody in. */
  token: string | null;
  /** Writes that came here, whatever became of them. */
  writes: number;
  /** Lines of the largest and of the last write. */
  largest: number;
  last: number;
  stop(): Promise<void>;
}

/** A small server in front of a real InfluxDB that makes the troubles a real one has on its bad days. */
export async function startInfluxProxy(behind: string): Promise<InfluxProxy> {
  const server = createServer((request, response) => {
    serve(proxy, behind, request, response).catch(() => response.destroy());
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as { port: number };
  const proxy: InfluxProxy = {
    url: `http://127.0.0.1:${port}`,
    trouble: { kind: 'none' },
    token: null,
    writes: 0,
    largest: 0,
    last: 0,
    async stop() {
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
    },
  };
  return proxy;
}

async function serve(
  proxy: InfluxProxy,
  behind: string,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  const sent = Buffer.concat(await request.toArray());
  const body = request.headers['content-encoding'] === 'gzip' ? gunzipSync(sent) : sent;
  const say = (status: number, text: string, type = 'application/json') =>
    response.writeHead(status, { 'content-type': type }).end(text);
  if (proxy.token !== null && request.headers.authorization !== `Token ${proxy.token}`) {
    return void say(401, '{"message":"unauthorized access"}');
  }
  const isWrite = request.url?.includes('write') === true;
  const trouble = isWrite ? proxy.trouble : ({ kind: 'none' } as const);
  if (isWrite) count(proxy, body);
  if (trouble.kind === 'answers') return void say(trouble.status, trouble.body, trouble.type);
  if (trouble.kind === 'refuses' && body.includes(trouble.text)) {
    return void say(400, '{"error":"unable to parse this line"}');
  }
  const answer = await fetch(`${behind}${request.url}`, {
    method: request.method!,
    ...(body.length > 0 ? { body } : {}),
  });
  const text = await answer.text();
  if (trouble.kind === 'loses-answers') return void response.destroy();
  if (trouble.kind === 'slow') await new Promise((resolve) => setTimeout(resolve, trouble.milliseconds));
  if (answer.status === 204) return void response.writeHead(204).end();
  say(answer.status, text);
}

function count(proxy: InfluxProxy, body: Buffer): void {
  proxy.writes++;
  proxy.last = body.toString().split('\n').length;
  proxy.largest = Math.max(proxy.largest, proxy.last);
}
