import { createECDH, createPublicKey, randomBytes, verify } from 'node:crypto';
import { mkdtemp, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { createWebPush } from '../../services/notify/webPush/createWebPush.ts';
import { webPushSchema } from '../../services/notify/webPush/settings.ts';
import { openVapidKeys } from '../../services/notify/webPush/vapidKeys.ts';
import type { Arrived, ChannelRig } from '../helpers/channelRig.ts';
import { type HttpCall, openStandInHttp } from '../helpers/standInHttp.ts';
import { decryptWebPush, type PushReceiver } from '../helpers/webPushDecrypt.ts';
import { describeChannelContract } from './channelContract.ts';

async function openPushService(): Promise<ChannelRig> {
  const folder = await mkdtemp(join(tmpdir(), 'tilth-push-'));
  const keys = await openVapidKeys(join(folder, 'keys.json'));
  const standIn = await openStandInHttp({
    well: 201,
    busy: 429,
    'refuses-recipient': 410,
    'refuses-account': 403,
  });
  const origin = `http://127.0.0.1:${standIn.port}`;
  const { receiver, address } = browser(`${origin}/push/abc`);
  const settings = webPushSchema.parse({
    ...{ contact: 'mailto:keeper@example.org', allowPrivateAddresses: true, timeoutSeconds: 1 },
  });
  return {
    channel: createWebPush(settings, keys, Date.now),
    address,
    badAddress: '{"endpoint":"https://push.example/x"}',
    secrets: [keys.privateKey, receiver.authSecret.toString('base64url')],
    ...{ checkReaches: false, carriesKey: true },
    arrived: () => standIn.taken.map((call) => read(call, receiver, keys.publicKey, origin, address)),
    setMood: standIn.setMood,
    goAway: standIn.goAway,
    comeBack: standIn.comeBack,
    async close() {
      await standIn.goAway();
      await rm(folder, { recursive: true });
    },
  };
}

function browser(endpoint: string): { receiver: PushReceiver; address: string } {
  const pair = createECDH('prime256v1');
  const p256dh = pair.generateKeys('base64url');
  const receiver = { privateKey: pair.getPrivateKey(), authSecret: randomBytes(16) };
  const auth = receiver.authSecret.toString('base64url');
  return { receiver, address: JSON.stringify({ endpoint, expirationTime: null, keys: { p256dh, auth } }) };
}

/** As a push service and then a browser treat it: TTL and signature are demanded, the body is decrypted. */
function read(
  call: HttpCall,
  receiver: PushReceiver,
  publicKey: string,
  origin: string,
  to: string,
): Arrived {
  if (!/^\d+$/.test(String(call.headers.ttl))) throw new Error('no TTL: 400 by RFC 8030');
  if (call.headers['content-encoding'] !== 'aes128gcm') throw new Error('not encrypted by RFC 8291');
  checkSignature(String(call.headers.authorization), publicKey, origin);
  const { text } = JSON.parse(decryptWebPush(call.body, receiver).toString());
  return { to, text, key: String(call.headers.topic) };
}

function checkSignature(authorization: string, publicKey: string, origin: string): void {
  const [, token, key] = /^vapid t=([^,]+), ?k=(.+)$/.exec(authorization) ?? [];
  const [header, claims, signature] = token!.split('.') as [string, string, string];
  const point = Buffer.from(key!, 'base64url');
  const [x, y] = [point.subarray(1, 33), point.subarray(33)].map((half) => half.toString('base64url'));
  const jwk = { kty: 'EC', crv: 'P-256', x: x!, y: y! };
  const isRight = verify(
    'sha256',
    Buffer.from(`${header}.${claims}`),
    { key: createPublicKey({ key: jwk, format: 'jwk' }), dsaEncoding: 'ieee-p1363' },
    Buffer.from(signature, 'base64url'),
  );
  const { aud, exp, sub } = JSON.parse(Buffer.from(claims, 'base64url').toString());
  if (!isRight || key !== publicKey || aud !== origin) throw new Error('not signed for this push service');
  if (exp > Date.now() / 1000 + 86_400 || !/^mailto:/.test(sub)) throw new Error('claims beyond RFC 8292');
}

describeChannelContract('web push', openPushService);

test('the signing keys are kept from one start to the next, for this account only', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'tilth-push-'));
  const file = join(folder, 'keys.json');
  const keys = await openVapidKeys(file);
  expect(await openVapidKeys(file)).toEqual(keys);
  expect((await stat(file)).mode & 0o777).toBe(0o600);
  await rm(folder, { recursive: true });
});
