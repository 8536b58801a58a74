import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';

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
  stop(): Promise<void>;
}

/** Texts the page keeps; a demo left running must not grow for ever. */
const kept = 200;

/**
 * Plays both the HTTP text gateway and the phone that gets the texts, for the demo and for tests. Honours the key: a
 * repeated `id` is one text.
 */
export async function startStandInPhone(
  options: {
    readonly port?: number;
    /** Containers reach this machine by another address than loopback. */
    readonly host?: string;
    readonly onText?: (text: StandInText) => void;
  } = {},
): Promise<StandInPhone> {
  const texts: StandInText[] = [];
  const server = createServer(async (request, response) => {
    if (request.method === 'POST') {
      let body = '';
      for await (const piece of request) body += piece;
      const { to, text, id } = JSON.parse(body) as StandInText;
      if (!texts.some((known) => known.id === id)) {
        const received = { to, text, id, receivedMs: Date.now() };
        texts.unshift(received);
        texts.length = Math.min(texts.length, kept);
        options.onText?.(received);
      }
      response.writeHead(200, { 'content-type': 'application/json' }).end(JSON.stringify({ reference: id }));
      return;
    }
    response
      .writeHead(200, { 'content-type': 'text/html; charset=utf-8', 'cache-control': 'no-store' })
      .end(page(texts));
  });
  await new Promise<void>((resolve) =>
    server.listen(options.port ?? 0, options.host ?? '127.0.0.1', resolve),
  );
  const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  return {
    url,
    gatewayUrl: `${url}/send`,
    texts,
    stop: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
}

function page(texts: readonly StandInText[]): string {
  const items = texts.map(
    ({ to, text }) =>
      `<li><p>${linked(text)}</p><small>to ${escaped(to)}, ${text.length} characters</small></li>`,
  );
  const list =
    items.length > 0
      ? `<ol>${items.join('')}</ol>`
      : '<p class="none">No text yet. The first one comes when a core passes its ceiling.</p>';
  return `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta http-equiv="refresh" content="3">
<meta name="viewport" content="width=device-width"><title>Stand-in phone</title><style>
body{font:17px/1.45 system-ui,sans-serif;max-width:26rem;margin:0 auto;padding:1rem;background:#eceae4;color:#23271f}
h1{font-size:1.1rem}ol{list-style:none;padding:0}li{background:#fff;border-radius:.8rem;padding:.7rem .9rem;margin:.7rem 0}
p{margin:0 0 .3rem;overflow-wrap:anywhere}small{color:#5a5f54}</style></head>
<body><h1>Stand-in phone: texts this yard sent</h1>${list}</body></html>`;
}

function escaped(text: string): string {
  return text.replaceAll(/[&<>"']/g, (character) => `&#${character.charCodeAt(0)};`);
}

/** Links in a text can be tapped, as on a phone. */
function linked(text: string): string {
  return escaped(text).replaceAll(/https?:\/\/[^\s&]+/g, (url) => `<a href="${url}">${url}</a>`);
}
