import jsQr from 'jsqr';
import { expect, it } from 'vitest';
import type { ProbeCredential } from '../../../shared/api/types.ts';
import { credentialAddress } from './credentialAddress.ts';
import { qrRows } from './qrRows.ts';

const scale = 4;
const quiet = 4;

/** Draws the code as pixels and reads it with a decoder of another maker. */
function readBack(content: string): string | null {
  const rows = qrRows(content);
  const side = (rows.length + 2 * quiet) * scale;
  const pixels = new Uint8ClampedArray(side * side * 4).fill(255);
  for (let y = 0; y < side; y += 1)
    for (let x = 0; x < side; x += 1) {
      const isDark = rows[Math.floor(y / scale) - quiet]?.[Math.floor(x / scale) - quiet] === true;
      if (isDark) pixels.fill(0, (y * side + x) * 4, (y * side + x) * 4 + 3);
    }
  // The package says its function is its default export's default.
  const read = (jsQr as unknown as { default?: typeof jsQr }).default ?? jsQr;
  return read(pixels, side, side)?.data ?? null;
}

const made: Pick<ProbeCredential, 'mqtt' | 'secret'> = {
  secret: 'bm90LWEtcmVhbC1zZWNyZXQtYnV0LWFzLWxvbmctYXMtb25l',
  mqtt: {
    ...{ host: '192.0.2.7', port: 8883, tls: true, exampleCommand: '' },
    user: 'urn:dev:mac:0224befffe804ff1',
    topic: 'tilth/k3v9x2/urn:dev:mac:0224befffe804ff1/readings',
  },
};

it('a credential as a QR code is read back by another maker\u2019s decoder, to the letter', () => {
  expect(readBack(credentialAddress(made))).toBe(credentialAddress(made));
});

it('the address is one any URL reader takes apart again', () => {
  const address = new URL(credentialAddress(made));
  expect(address.protocol).toBe('mqtts:');
  expect([address.hostname, address.port]).toEqual(['192.0.2.7', '8883']);
  expect(decodeURIComponent(address.username)).toBe(made.mqtt.user);
  expect(decodeURIComponent(address.password)).toBe(made.secret);
  expect(decodeURIComponent(address.pathname)).toBe(`/${made.mqtt.topic}`);
});
