import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { phonePage } from './phonePage.ts';

export interface StandInText {
  readonly to: string;
  readonly text: string;
  readonly id: string;
  readonly receivedMs: number;
}

export interface StandInPhone {
  /** Page that shows the texts, newest first. */
  readonly url: string;
  /** Where a gateway request goes: POST `{"to","text","id"}`. */
  readonly gatewayUrl: string;
  readonly texts: readonly StandInText[];
  /** From now on the page has a field to text back, and this is told what was sent, from which number. */
  answerTo(reply: (from: string, text: string) => Promise<void>): void;
  stop(): Promise<void>;
}

/** Texts the page keeps; a demo left running must not grow for ever. */
const kept = 200;
const longestReply = 500;

export interface StandInOptions {
  readonly port?: number;
  /** Containers reach this machine by another address than loopback. */
  readonly host?: string;
  readonly onText?: (text: StandInText) => void;
}

/**
 * Plays both the HTTP text gateway and the phone that gets the texts, for the demo and for tests. Honours the key: a
 * repeated `id` is one text.
 */
export async function startStandInPhone(options: StandInOptions = {}): Promise<StandInPhone> {
  const texts: StandInText[] = [];
  const replies: { readonly from: string; readonly text: string; readonly sentMs: number }[] = [];
  let reply: ((from: string, text: string) => Promise<void>) | null = null;

  function takeText(body: string, response: ServerResponse): void {
    const { to, text, id } = JSON.parse(body) as StandInText;
    if (!texts.some((known) => known.id === id)) {
      const received = { to, text, id, receivedMs: Date.now() };
      texts.unshift(received);
      texts.length = Math.min(texts.length, kept);
      options.onText?.(received);
    }
    response.writeHead(200, { 'content-type': 'application/json' }).end(JSON.stringify({ reference: id }));
  }

  async function takeReply(body: string, response: ServerResponse): Promise<void> {
    const form = new URLSearchParams(body);
    const [from, text] = [form.get('from') ?? '', (form.get('text') ?? '').trim().slice(0, longestReply)];
    if (reply !== null && text !== '' && texts.some(({ to }) => to === from)) {
      replies.unshift({ from, text, sentMs: Date.now() });
      replies.length = Math.min(replies.length, kept);
      await reply(from, text);
    }
    response.writeHead(303, { location: '/' }).end();
  }

  const server = createServer(async (request, response) => {
    try {
      if (request.method !== 'POST') return showPage(response, phonePage(texts, replies, reply !== null));
      const body = await bodyOf(request);
      if (request.url !== '/reply') return takeText(body, response);
      // Another page in the same browser is not to answer for the person.
      if (request.headers.origin !== undefined && request.headers.origin !== url)
        return void response.writeHead(403).end();
      await takeReply(body, response);
    } catch (error) {
      response.writeHead(500, { 'content-type': 'text/plain' }).end(String(error));
    }
  });
  await new Promise<void>((resolve) =>
    server.listen(options.port ?? 0, options.host ?? '127.0.0.1', resolve),
  );
  const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  return {
    url,
    gatewayUrl: `${url}/send`,
    texts,
    answerTo: (told) => {
      reply = told;
    },
    stop: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
}

async function bodyOf(request: IncomingMessage): Promise<string> {
  let body = '';
  for await (const piece of request) body += piece;
  return body;
}

function showPage(response: ServerResponse, page: string): void {
  response
    .writeHead(200, { 'content-type': 'text/html; charset=utf-8', 'cache-control': 'no-store' })
    .end(page);
}
