import { argon2Sync, createHmac, scryptSync } from 'node:crypto';
import { expect } from 'vitest';
import { decryptWebPush } from '../helpers/webPushDecrypt.ts';
import type { CheckRow } from './checkRow.ts';

/** Published test keys: never use them outside tests. */
const published = {
  pushReceiverPrivate: 'q1dXpw3UpT5VOmu_cf_v6ih07Aems3njxI-JWgLcM94',
  pushAuthSecret: 'BTBZMqHH6r4Tts7J_aSIgg',
  pushBody:
    'DGv6ra1nlYgDCS1FRnbzlwAAEABBBP4z9KsN6nGRTbVYI_c7VJSPQTBtkgcy27mlmlMoZIIgDll6e3vCYLocInmYWAmS6TlzAC8wEqKK6PBru3jl7A_yl95bQpu6cVPTpK4Mqgkf1CXztLVBSt2Ks3oZwbuwXPXLWyouBWLVWGNWQexSgSxsj_Qulcy4a-fN',
  signatureKey: 'uzvJfB4u3N0Jy4T7NZ75MDVcr8zSTInedJtkgcu46YW4XByzNJjxBdtjUkdJPBtbmHhIDi6pcl8jsasjlTMtDQ==',
  webhookKey: 'MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw',
};

const signatureBase = [
  '"date": Tue, 20 Apr 2021 02:07:55 GMT',
  '"@authority": example.com',
  '"content-type": application/json',
  '"@signature-params": ("date" "@authority" "content-type");created=1618884473;keyid="test-shared-secret"',
].join('\n');

const hmac = (key: Buffer | string, data: string): Buffer => createHmac('sha256', key).update(data).digest();
const row = (id: string, source: string, status: string, check: () => void): CheckRow => ({
  id,
  source,
  status,
  check,
});

export const rows: CheckRow[] = [
  row('C-94', 'RFC 8291', 'confirmed by lookup, R', () => {
    const body = Buffer.from(published.pushBody, 'base64url');
    expect(body.length).toBe(144);
    const plain = decryptWebPush(body, {
      privateKey: Buffer.from(published.pushReceiverPrivate, 'base64url'),
      authSecret: Buffer.from(published.pushAuthSecret, 'base64url'),
    });
    expect(plain.toString()).toBe('When I grow up, I want to be a watermelon');
  }),
  row('C-95', 'RFC 9421', 'confirmed by lookup, R', () => {
    const signature = hmac(Buffer.from(published.signatureKey, 'base64'), signatureBase);
    expect(signature.toString('base64')).toBe('pxcQw6G3AjtMBQjwo8XzkZf/bws5LelbaMk5rGIGtE8=');
  }),
  row('C-96', "open specification's test", 'confirmed by lookup, R', () => {
    const signed = ['msg_p5jXN8AQM9LWM0D4loKWxJek', '1614265330', '{"test": 2432232314}'].join('.');
    const signature = hmac(Buffer.from(published.webhookKey, 'base64'), signed);
    expect(`v1,${signature.toString('base64')}`).toBe('v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=');
  }),
  row('C-97', 'RFC 4231 case 2', 'R', () => {
    const digest = '5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843';
    expect(hmac('Jefe', 'what do ya want for nothing?').toString('hex')).toBe(digest);
  }),
  row('C-98', 'RFC 7914 12', 'R', () => {
    const key = scryptSync('password', 'NaCl', 64, { N: 1024, r: 8, p: 16 });
    expect(key.toString('hex')).toBe(
      'fdbabe1c9d3472007856e7190d01e9fe7c6ad7cbc8237830e77376634b3731622eaf30d92e22a3886ff109279d9830dac727afb94a83ee6d8360cbdfa2cc0640',
    );
  }),
  row('C-99', 'RFC 7914 12', 'R', () => {
    const key = scryptSync('pleaseletmein', 'SodiumChloride', 64, { N: 16_384, r: 8, p: 1 });
    expect(key.toString('hex')).toBe(
      '7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2d5432955613f0fcf62d49705242a9af9e61e85dc0d651e40dfcf017b45575887',
    );
  }),
  row('C-100', 'RFC 9106 5.3', 'from memory (unconfirmed)', () => {
    const tag = argon2Sync('argon2id', {
      message: Buffer.alloc(32, 1),
      nonce: Buffer.alloc(16, 2),
      secret: Buffer.alloc(8, 3),
      associatedData: Buffer.alloc(12, 4),
      memory: 32,
      passes: 3,
      parallelism: 4,
      tagLength: 32,
    });
    expect(tag.toString('hex')).toBe('0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659');
  }),
  row('C-101', 'run here', 'R', () => {
    const strong = { N: 2 ** 17, r: 8, p: 1 };
    expect(() => scryptSync('a', 'b', 32, strong)).toThrow();
    expect(() => scryptSync('a', 'b', 32, { ...strong, maxmem: 134_217_728 })).toThrow();
    expect(scryptSync('a', 'b', 32, { ...strong, maxmem: 268_435_456 })).toHaveLength(32);
  }),
];
