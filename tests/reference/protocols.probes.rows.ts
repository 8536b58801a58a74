import { expect } from 'vitest';
import { deviceUrnFromEui48, deviceUrnFromMac48 } from '../../shared/senml/deviceUrn.ts';
import {
  decodeTemperatureCelsius,
  failedConversionCelsius,
  linuxNameOfRom,
  oneWireCrc8,
  readScratchpad,
  romOfLinuxName,
} from '../../shared/senml/oneWire.ts';
import { dryBasisFromWetFraction } from '../../shared/units/moistureBasis.ts';
import type { CheckRow } from './checkRow.ts';

const bytes = (hex: string): Uint8Array => Buffer.from(hex.replaceAll(' ', ''), 'hex');

function crcRow(id: string, data: Uint8Array, crc: number, source: string, status = 'R'): CheckRow {
  return {
    id,
    source,
    status,
    check: () => {
      expect(oneWireCrc8(data)).toBe(crc);
      expect(oneWireCrc8(Uint8Array.of(...data, crc))).toBe(0);
    },
  };
}

function row(id: string, source: string, status: string, check: () => void): CheckRow {
  return { id, source, status, check };
}

export const rows: CheckRow[] = [
  row('C-22', 'RFC 9039 5', 'confirmed by lookup', () => {
    expect(deviceUrnFromEui48('0024be804ff1')).toBe('urn:dev:mac:0024befffe804ff1');
  }),
  row('C-23', 'RFC 9039 5', 'confirmed by lookup', () => {
    expect(deviceUrnFromMac48('00:24:BE:80:4F:F1')).toBe('urn:dev:mac:0024beffff804ff1');
  }),
  crcRow('C-24', bytes('10 e2 07 3a 01 08 00'), 0x63, 'RFC 9039 example'),
  crcRow('C-25', bytes('26 44 37 f5 00 00 00'), 0xed, 'RFC 9039 example'),
  crcRow(
    'C-26',
    bytes('02 1C B8 01 00 00 00'),
    0xa2,
    'application note 27',
    'confirmed by lookup (secondary), R',
  ),
  crcRow('C-27', Buffer.from('123456789'), 0xa1, 'standard check string'),
  crcRow('C-28', bytes('50 05 4B 46 7F FF 0C 10'), 0x1c, 'clone survey', 'confirmed by lookup, R'),
  crcRow('C-29', bytes('91 01 4B 46 7F FF 0F 10'), 0x25, 'arithmetic, made here'),
  crcRow('C-30', bytes('FF 07 4B 46 7F FF 0C 10'), 0xa6, 'arithmetic, made here'),
  row('C-31', 'arithmetic', 'R', () => {
    expect(oneWireCrc8(new Uint8Array(9))).toBe(0);
    expect(readScratchpad(new Uint8Array(9))).toEqual({ ok: false, problem: 'bus-stuck-low' });
  }),
  row('C-32', 'arithmetic', 'R', () => {
    expect(oneWireCrc8(new Uint8Array(8).fill(0xff))).toBe(0xc9);
    expect(readScratchpad(new Uint8Array(9).fill(0xff))).toEqual({ ok: false, problem: 'crc-failed' });
  }),
  row('C-33', 'clone survey, as printed', 'R', () => {
    expect(oneWireCrc8(bytes('90 01 55 05 7F 7E 81 66'))).toBe(0x96);
    const printed = readScratchpad(bytes('90 01 55 05 7F 7E 81 66 27'));
    expect(printed).toEqual({ ok: false, problem: 'crc-failed' });
  }),
  row('C-34', 'datasheet table', 'confirmed by lookup (secondary), R', () => {
    const raw = [0x07d0, 0x0550, 0x0191, 0x00a2, 0x0008, 0x0000];
    expect(raw.map((value) => decodeTemperatureCelsius(value))).toEqual([125, 85, 25.0625, 10.125, 0.5, 0]);
  }),
  row('C-35', 'datasheet table', 'confirmed by lookup (secondary), R', () => {
    const raw = [0xfff8, 0xff5e, 0xfe6f, 0xfc90];
    expect(raw.map((value) => decodeTemperatureCelsius(value))).toEqual([-0.5, -10.125, -25.0625, -55]);
  }),
  row('C-36', 'Linux notes', 'confirmed by lookup, R', () => {
    expect(decodeTemperatureCelsius(0x07ff)).toBe(failedConversionCelsius);
    const scratchpad = bytes('FF 07 4B 46 7F FF 0C 10 A6');
    expect(readScratchpad(scratchpad)).toEqual({ ok: false, problem: 'conversion-failed' });
  }),
  row('C-37', 'survey nomenclature', 'R', () => {
    expect(linuxNameOfRom('28139bbb0b00001f')).toBe('28-00000bbb9b13');
    expect(linuxNameOfRom('10e2073a01080063')).toBe('10-0008013a07e2');
    expect(romOfLinuxName('28-00000bbb9b13')).toBe('28139bbb0b00001f');
  }),
  row('C-38', 'definition', 'R', () => {
    const dry = [0.4, 0.5, 0.55, 0.6].map((wet) => dryBasisFromWetFraction(wet).toFixed(4));
    expect(dry).toEqual(['0.6667', '1.0000', '1.2222', '1.5000']);
  }),
];
