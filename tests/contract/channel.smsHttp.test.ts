import { smsGatewaySchema } from '../../services/notify/port.ts';
import { createSmsHttp } from '../../services/notify/smsHttp.ts';
import type { ChannelRig } from '../helpers/channelRig.ts';
import { type HttpCall, openStandInHttp } from '../helpers/standInHttp.ts';
import { describeChannelContract } from './channelContract.ts';

const key = 'gateway-key-of-the-test';
const statuses = { well: 202, busy: 503, 'refuses-recipient': 400, 'refuses-account': 401 };

async function openGateway(
  body: object | null,
  read: (call: HttpCall) => Record<string, string>,
): Promise<ChannelRig> {
  const standIn = await openStandInHttp(statuses, '{"id":"g1"}');
  const settings = smsGatewaySchema.parse({
    url: `http://127.0.0.1:${standIn.port}/send${body === null ? '?to={{to}}&text={{text}}' : ''}`,
    ...{ method: body === null ? 'GET' : 'POST', body, timeoutSeconds: 1 },
    headers: { authorization: `Bearer ${key}` },
    success: { referencePointer: '/id' },
  });
  return {
    channel: createSmsHttp(settings, Date.now),
    address: '+441632960123',
    badAddress: '0163 anyone',
    secrets: [key],
    ...{ checkReaches: true, carriesKey: true },
    arrived: () =>
      standIn.taken.map((call) => {
        const { to, text } = read(call);
        return { to: to!, text: text!, key: call.headers['idempotency-key'] as string };
      }),
    setMood: standIn.setMood,
    goAway: standIn.goAway,
    comeBack: standIn.comeBack,
    close: standIn.goAway,
  };
}

describeChannelContract('HTTP text gateway, JSON', () =>
  openGateway({ kind: 'json', template: '{"to":"{{to}}","text":"{{text}}"}' }, ({ body }) =>
    JSON.parse(body.toString()),
  ),
);

describeChannelContract('HTTP text gateway, form', () =>
  openGateway({ kind: 'form', template: 'to={{to}}&text={{text}}' }, ({ body }) =>
    Object.fromEntries(new URLSearchParams(body.toString())),
  ),
);

describeChannelContract('HTTP text gateway, query', () =>
  openGateway(null, ({ path }) => Object.fromEntries(new URL(path, 'http://gateway').searchParams)),
);
