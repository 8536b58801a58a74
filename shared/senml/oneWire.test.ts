import { expect, test } from 'vitest';
import { fromHex } from './hex.ts';
import {
  decodeTemperatureCelsius,
  linuxNameOfRom,
  oneWireCrc8,
  type ResolutionBits,
  readScratchpad,
  resolutionCelsius,
  romOfLinuxName,
} from './oneWire.ts';

const publishedRoms =
  '021CB801000000A2 10e2073a01080063 264437f5000000ed 28139BBB0B00001F 28AA3C61551401F0 28AB9CB133140181 ' +
  '28FF7C5A611604EE 28FF641DCD96F201 281CBC4692100288 2890FE7997000320 28FB1079A2000388 28FD589497140305 ' +
  '28241D77910402CE 289E9C1F00008004';

test.each(publishedRoms.split(' '))(
  'published ROM code %s has a valid check byte and a Linux name',
  (rom) => {
    expect(oneWireCrc8(fromHex(rom)!)).toBe(0);
    expect(romOfLinuxName(linuxNameOfRom(rom)!)).toBe(rom.toLowerCase());
  },
);

test('one flipped bit anywhere in a ROM code is noticed', () => {
  const rom = fromHex('28139BBB0B00001F')!;
  for (let bit = 0; bit < 64; bit++) {
    const flipped = rom.slice();
    flipped[bit >> 3]! ^= 1 << (bit & 7);
    expect(oneWireCrc8(flipped)).not.toBe(0);
  }
});

test('bits below the resolution are undefined and are masked', () => {
  const resolutions: ResolutionBits[] = [9, 10, 11, 12];
  expect(resolutions.map((bits) => decodeTemperatureCelsius(0x0197, bits))).toEqual([
    25, 25.25, 25.375, 25.4375,
  ]);
  expect(resolutions.map((bits) => decodeTemperatureCelsius(0xfe6f, bits))).toEqual([
    -25.5, -25.25, -25.125, -25.0625,
  ]);
  expect(resolutions.map(resolutionCelsius)).toEqual([0.5, 0.25, 0.125, 0.0625]);
});

test('the power-up scratchpad is read, and marked as the power-on value', () => {
  const scratchpad = fromHex('50054B467FFF0C101C')!;
  expect(readScratchpad(scratchpad)).toEqual({ ok: true, celsius: 85, bits: 12, isPowerOnValue: true });
});

test('nine zero bytes pass the check sum and are a bus stuck low all the same', () => {
  expect(readScratchpad(new Uint8Array(9))).toEqual({ ok: false, problem: 'bus-stuck-low' });
});

test('a scratchpad of another length, or without the fixed bits, is refused', () => {
  expect(readScratchpad(new Uint8Array(8))).toEqual({ ok: false, problem: 'length' });
  const wrong = fromHex('91014B4680FF0F10')!;
  const withCrc = Uint8Array.of(...wrong, oneWireCrc8(wrong));
  expect(readScratchpad(withCrc)).toEqual({ ok: false, problem: 'not-a-thermometer' });
});

test('what is no ROM code or Linux name gives null', () => {
  expect([linuxNameOfRom('28'), linuxNameOfRom('zz'), romOfLinuxName('28-0000'), romOfLinuxName('')]).toEqual(
    Array(4).fill(null),
  );
});
