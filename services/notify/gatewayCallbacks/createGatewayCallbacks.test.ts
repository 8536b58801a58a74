import { createHmac } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import type { DeliveryReport, InboundText } from '../messageChannel.ts';
import type { CallbackRequest } from '../port.ts';
import { createGatewayCallbacks } from './createGatewayCallbacks.ts';
import { gatewayCallbacksSchema } from './settings.ts';

const nowMs = 1_790_000_000_000;
const secret = 'a-secret-of-the-test';
const token = { kind: 'token', name: 'x-gateway-secret', secret };

function open(settings: object, fails = false) {
  const texts: InboundText[] = [];
  const reports: DeliveryReport[] = [];
  const keep = async <Item>(list: Item[], item: Item) => {
    if (fails) throw new Error('disk full');
    list.push(item);
  };
  const sink = {
    onText: (text: InboundText) => keep(texts, text),
    onReport: (report: DeliveryReport) => keep(reports, report),
  };
  const port = createGatewayCallbacks(gatewayCallbacksSchema.parse(settings), sink, () => nowMs);
  return { port, texts, reports };
}

function call(body: string, headers: Record<string, string> = {}, query = ''): CallbackRequest {
  return {
    url: `https://yard.example/gateway${query}`,
    headers: { 'x-gateway-secret': secret, ...headers },
    body: new TextEncoder().encode(body),
  };
}

describe("a gateway's calls", () => {
  test('a JSON report of a delivered text is read where the configuration says', async () => {
    const settings = { check: token, deliveryReport: { reference: '/message/id', state: '/message/status' } };
    const { port, reports } = open(settings);
    expect((await port.deliveryReport(call('{"message":{"id":42,"status":"Delivered"}}'))).status).toBe(200);
    expect(reports).toEqual([{ reference: '42', state: 'delivered', detail: 'Delivered', atMs: nowMs }]);
  });

  test('several reports in one call are all read, and a word nobody named is under way', async () => {
    const deliveryReport = { items: '', reference: '/id', state: '/s' };
    const { port, reports } = open({ check: token, deliveryReport });
    await port.deliveryReport(call('[{"id":"a","s":"UNDELIV"},{"id":"b","s":"BUFFERED"}]'));
    expect(reports.map(({ reference, state }) => [reference, state])).toEqual([
      ['a', 'failed'],
      ['b', 'underway'],
    ]);
  });

  test('a text in a form, with a sender without plus, is read', async () => {
    const inbound = { from: 'form', sender: 'from', text: 'text', reference: 'id', senderPrefix: '+' };
    const { port, texts } = open({
      check: token,
      inbound,
      answer: { contentType: 'text/xml', body: '<r/>' },
    });
    const answer = await port.inbound(call('from=441632960123&text=SEEN+7%C2%A3&id=9'));
    expect(answer).toEqual({ status: 200, contentType: 'text/xml', body: '<r/>' });
    expect(texts).toEqual([{ from: '+441632960123', text: 'SEEN 7£', receivedMs: nowMs, reference: '9' }]);
  });

  test('a text in the query of a GET is read, an empty one too, and a name keeps no plus', async () => {
    const check = { ...token, where: 'query', name: 'key' };
    const inbound = { from: 'query', sender: 'n', text: 't', senderPrefix: '+' };
    const { port, texts } = open({ check, inbound });
    await port.inbound(call('', {}, `?key=${secret}&n=Depot&t=`));
    expect(texts[0]).toMatchObject({ from: 'Depot', text: '' });
  });

  test('a call without the secret is refused unread', async () => {
    const { port, texts } = open({ check: token, inbound: { sender: '/n', text: '/t' } });
    const body = '{"n":"+441632960123","t":"SEEN"}';
    expect((await port.inbound(call(body, { 'x-gateway-secret': `${secret}x` }))).status).toBe(401);
    expect((await port.inbound({ ...call(body), headers: {} })).status).toBe(401);
    expect(texts).toEqual([]);
  });

  test('a signature over time and body must be right and recent', async () => {
    const check = {
      ...{ kind: 'signature', header: 'X-Signature', secret, prefix: 'sha256=' },
      ...{ signed: '{{timestamp}}.{{body}}', timestampHeader: 'X-Time' },
    };
    const { port, texts } = open({ check, inbound: { sender: '/n', text: '/t' } });
    const body = '{"n":"+441632960123","t":"SEEN"}';
    const signed = (seconds: number, text: string) => ({
      'x-time': String(seconds),
      'x-signature': `sha256=${createHmac('sha256', secret).update(`${seconds}.${text}`).digest('hex')}`,
    });
    expect((await port.inbound(call(body, signed(nowMs / 1000, body)))).status).toBe(200);
    expect((await port.inbound(call(body, signed(nowMs / 1000 - 301, body)))).status).toBe(401);
    expect((await port.inbound(call(body.replace('SEEN', 'STOP'), signed(nowMs / 1000, body)))).status).toBe(
      401,
    );
    expect(texts).toHaveLength(1);
  });

  test('what cannot be read is named, what cannot be stored is asked for again', async () => {
    const inbound = { sender: '/n', text: '/t' };
    const { port } = open({ check: token, inbound });
    expect(await port.inbound(call('{"n":"+441632960123"}'))).toEqual({
      status: 400,
      contentType: 'text/plain',
      body: 'there is no "/t"',
    });
    expect((await port.inbound(call('no JSON'))).status).toBe(400);
    expect((await port.inbound(call('x'.repeat(70_000)))).status).toBe(413);
    expect((await port.deliveryReport(call('{}'))).status).toBe(404);
    const failing = open({ check: token, inbound }, true).port;
    expect((await failing.inbound(call('{"n":"+441632960123","t":"SEEN"}'))).status).toBe(500);
  });

  test('a signed time without its header is not a valid configuration', () => {
    const check = { kind: 'signature', header: 'x', secret, signed: '{{timestamp}}.{{body}}' };
    expect(gatewayCallbacksSchema.safeParse({ check }).success).toBe(false);
  });
});
