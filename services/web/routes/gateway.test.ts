import { createHmac } from 'node:crypto';
import { afterEach, describe, expect, it } from 'vitest';
import { createGatewayCallbacks } from '../../notify/gatewayCallbacks/createGatewayCallbacks.ts';
import { gatewayCallbacksSchema } from '../../notify/gatewayCallbacks/settings.ts';
import type { DeliveryReport, InboundText } from '../../notify/port.ts';
import { openTestWeb, type TestWeb, testNowMs } from '../testing/openTestWeb.ts';

const secret = 'sixteen or more characters';
let web: TestWeb | null = null;
afterEach(() => web?.close());

/** A web service whose gateway signs address and body together. */
async function open() {
  const texts: InboundText[] = [];
  const reports: DeliveryReport[] = [];
  const settings = gatewayCallbacksSchema.parse({
    check: { kind: 'signature', header: 'x-signature', secret, signed: '{{url}}{{body}}' },
    deliveryReport: { from: 'form', reference: 'id', state: 'status' },
    inbound: { reference: '/id', sender: '/from', text: '/body' },
  });
  const sink = {
    onText: async (one: InboundText) => void texts.push(one),
    onReport: async (one: DeliveryReport) => void reports.push(one),
  };
  web = await openTestWeb({}, { gateway: createGatewayCallbacks(settings, sink, () => testNowMs) });
  const call = (path: string, payload: string, type: string, key = secret) => {
    const signed = createHmac('sha256', key).update(`http://yard.example${path}${payload}`).digest('hex');
    const headers = { 'content-type': type, 'x-signature': signed };
    return web!.inject({ method: 'POST', url: path, payload, headers });
  };
  return { texts, reports, call };
}

describe('calls of the text gateway', () => {
  it('take a text in, over the very bytes that were signed', async () => {
    const { texts, call } = await open();
    const body = '{ "from":"+441632960123", "body":"Gr\\u00fcn  K7", "id":"a1" }';
    const answer = await call('/gateway/inbound', body, 'application/json');
    expect(answer.statusCode).toBe(200);
    expect(texts).toEqual([
      { from: '+441632960123', text: 'Grün  K7', reference: 'a1', receivedMs: testNowMs },
    ]);
  });

  it('take a delivery report from a form, with a query in the signed address', async () => {
    const { reports, call } = await open();
    const type = 'application/x-www-form-urlencoded';
    const answer = await call('/gateway/report?yard=1', 'id=77&status=DELIVRD', type);
    expect(answer.statusCode).toBe(200);
    expect(reports).toMatchObject([{ reference: '77', state: 'delivered' }]);
  });

  it('are refused with a wrong proof, and change nothing', async () => {
    const { texts, call } = await open();
    const body = '{"from":"+441632960123","body":"seen K7","id":"a1"}';
    expect((await call('/gateway/inbound', body, 'application/json', 'another secret here')).statusCode).toBe(
      401,
    );
    expect(texts).toEqual([]);
  });

  it('lead nowhere where no gateway calls, nor by HEAD', async () => {
    const { call: _call } = await open();
    const head = await web!.inject({ method: 'HEAD', url: '/gateway/inbound' });
    expect(head.statusCode).toBe(404);
    await web!.close();
    web = await openTestWeb();
    expect((await web.inject({ method: 'POST', url: '/gateway/inbound', payload: {} })).statusCode).toBe(404);
  });
});
