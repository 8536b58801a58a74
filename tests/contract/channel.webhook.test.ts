import { createHmac, randomBytes } from 'node:crypto';
import { createWebhook } from '../../services/notify/webhook/createWebhook.ts';
import { webhookSchema } from '../../services/notify/webhook/settings.ts';
import type { Arrived, ChannelRig } from '../helpers/channelRig.ts';
import { type HttpCall, openStandInHttp } from '../helpers/standInHttp.ts';
import { describeChannelContract } from './channelContract.ts';

async function openReceiver(): Promise<ChannelRig> {
  const secret = randomBytes(32);
  const standIn = await openStandInHttp({
    well: 204,
    busy: 503,
    'refuses-recipient': 410,
    'refuses-account': 401,
  });
  const address = `http://127.0.0.1:${standIn.port}/hook`;
  const settings = webhookSchema.parse({
    secrets: [secret.toString('base64')],
    ...{ allowPrivateAddresses: true, timeoutSeconds: 1 },
  });
  return {
    channel: createWebhook(settings, Date.now),
    address,
    badAddress: 'ftp://127.0.0.1/hook',
    secrets: [secret.toString('base64')],
    ...{ checkReaches: false, carriesKey: true },
    arrived: () => standIn.taken.map((call) => verified(call, secret, address)),
    setMood: standIn.setMood,
    goAway: standIn.goAway,
    comeBack: standIn.comeBack,
    close: standIn.goAway,
  };
}

/** As a careful receiver reads it: nothing without a right signature over id, time and body. */
function verified({ headers, body }: HttpCall, secret: Buffer, to: string): Arrived {
  const key = headers['webhook-id'] as string;
  const timestamp = headers['webhook-timestamp'] as string;
  const wanted = createHmac('sha256', secret).update(`${key}.${timestamp}.${body}`).digest('base64');
  if (headers['webhook-signature'] !== `v1,${wanted}`) throw new Error('signature is not right');
  if (Math.abs(Date.now() / 1000 - Number(timestamp)) > 300) throw new Error('signed too long ago');
  return { to, key, text: JSON.parse(body.toString()).data.text };
}

describeChannelContract('signed webhook', openReceiver);
