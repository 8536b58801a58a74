import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterEach, describe, expect, test } from 'vitest';
import type { Message } from '../records/port.ts';
import { fillTemplate } from './fillTemplate.ts';
import { smsGatewaySchema } from './smsGateway.ts';
import { createSmsHttp } from './smsHttp.ts';

interface Seen {
  readonly method: string;
  readonly url: string;
  readonly headers: IncomingMessage['headers'];
  readonly body: string;
}

let stop = () => {};
afterEach(() => stop());

async function gateway(answer: (response: ServerResponse) => void): Promise<{ url: string; seen: Seen[] }> {
  const seen: Seen[] = [];
  const server = createServer(async (request, response) => {
    let body = '';
    for await (const piece of request) body += piece;
    seen.push({ method: request.method ?? '', url: request.url ?? '', headers: request.headers, body });
    answer(response);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  stop = () => {
    server.closeAllConnections();
    server.close();
  };
  return { url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`, seen };
}

const message = {
  id: 'm1',
  idempotencyKey: 'a1.2.p1',
  address: '+441632960123',
  text: 'Bay 3 "core" 72.4 C\nnext: {{to}} & water',
} as Message;

describe('the HTTP text gateway', () => {
  test('fills a JSON body, escaped, once over, and carries the key', async () => {
    const { url, seen } = await gateway((response) => response.end('{"data":{"ref":42}}'));
    const settings = smsGatewaySchema.parse({
      url: `${url}/send`,
      headers: { authorization: 'Bearer k' },
      success: { referencePointer: '/data/ref' },
    });
    const outcome = await createSmsHttp(settings, Date.now).send(message);
    expect(outcome).toMatchObject({ kind: 'sent', reference: '42' });
    expect(JSON.parse(seen[0]!.body)).toEqual({
      to: message.address,
      text: message.text,
      id: message.idempotencyKey,
    });
    expect(seen[0]!.headers).toMatchObject({ authorization: 'Bearer k', 'idempotency-key': 'a1.2.p1' });
  });

  test('fills a form body and a GET address', async () => {
    const { url, seen } = await gateway((response) => response.end());
    const form = smsGatewaySchema.parse({ url, body: { kind: 'form', template: 'n={{digits}}&m={{text}}' } });
    await createSmsHttp(form, Date.now).send(message);
    const sent = Object.fromEntries(new URLSearchParams(seen[0]!.body));
    expect(sent).toEqual({ n: '441632960123', m: message.text });
    const get = smsGatewaySchema.parse({ url: `${url}/?n={{to}}&m={{text}}`, method: 'GET', body: null });
    await createSmsHttp(get, Date.now).send(message);
    expect(new URL(seen[1]!.url, url).searchParams.get('n')).toBe(message.address);
  });

  test.each([
    [503, 'retry'],
    [429, 'retry'],
    [400, 'gave-up'],
    [302, 'gave-up'],
  ])('answer %i means %s', async (status, kind) => {
    const { url } = await gateway((response) =>
      response.writeHead(status, { 'retry-after': '7', location: '/x' }).end(),
    );
    const outcome = await createSmsHttp(smsGatewaySchema.parse({ url }), () => 1000).send(message);
    expect(outcome.kind).toBe(kind);
    if (outcome.kind === 'retry') expect(outcome.notBeforeMs).toBe(8000);
  });

  test('an OK without the agreed word is not taken for success', async () => {
    const { url } = await gateway((response) => response.end('ERR no credit'));
    const settings = smsGatewaySchema.parse({ url, success: { bodyContains: 'queued' } });
    expect(await createSmsHttp(settings, Date.now).send(message)).toMatchObject({ kind: 'retry' });
  });

  test('silence and absence are retried, in plain words', async () => {
    const { url } = await gateway(() => {});
    const slow = await createSmsHttp(smsGatewaySchema.parse({ url, timeoutSeconds: 1 }), Date.now).send(
      message,
    );
    expect(slow).toEqual({ kind: 'retry', detail: 'gateway did not answer within 1 s', maybeSent: true });
    const absent = await createSmsHttp(smsGatewaySchema.parse({ url: 'http://127.0.0.1:1/' }), Date.now).send(
      message,
    );
    expect(absent.kind).toBe('retry');
  });

  test('what only the owner can put right is told apart by status or by words in the answer', async () => {
    const { url } = await gateway((response) => response.end('{"error":"no credit"}'));
    const send = (refusal: object) =>
      createSmsHttp(smsGatewaySchema.parse({ url, refusal }), Date.now).send(message);
    expect(await send({ account: ['no credit'] })).toMatchObject({ kind: 'retry', tellOwner: true });
    expect(await send({ message: ['no credit'] })).toMatchObject({ kind: 'gave-up' });
    expect(await send({})).toMatchObject({ kind: 'sent' });
  });

  test('the check asks the address that knows the account, with our key', async () => {
    const { url, seen } = await gateway((response) => response.writeHead(402).end());
    const checkUrl = `${url}/balance`;
    const settings = smsGatewaySchema.parse({ url, checkUrl, headers: { authorization: 'Bearer k' } });
    expect(await createSmsHttp(settings, Date.now).check()).toMatchObject({ ready: false, tellOwner: true });
    expect(seen).toMatchObject([{ method: 'GET', url: '/balance', headers: { authorization: 'Bearer k' } }]);
  });

  test('a placeholder we have no value for is not a valid configuration', () => {
    const body = { kind: 'json', template: '{"to":"{{phone}}"}' };
    expect(smsGatewaySchema.safeParse({ url: 'https://sms.example/', body }).success).toBe(false);
  });

  test('a header value cannot start another header', () => {
    expect(fillTemplate('{{text}}', 'header', { text: 'a\r\nx: y' })).toBe('a x: y');
    expect(() => fillTemplate('{{who}}', 'text', { text: 'a' })).toThrow(/who.*text/);
  });
});
