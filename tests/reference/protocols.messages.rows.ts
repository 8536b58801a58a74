import { expect } from 'vitest';
import {
  encodingOf,
  packSeptets,
  partCount,
  septetCount,
  septetsOf,
  unitCount,
} from '../../shared/messages/gsm.ts';
import { submitPdus } from '../../shared/messages/pdu.ts';
import { isE164 } from '../../shared/messages/phoneNumber.ts';
import type { CheckRow } from './checkRow.ts';

const table = 'GSM0338.TXT';
const confirmed = 'confirmed by lookup';
const a = (count: number): string => 'a'.repeat(count);
const emoji = (count: number): string => '🌱'.repeat(count);

function row(id: string, source: string, status: string, check: () => void): CheckRow {
  return { id, source, status, check };
}

export const rows: CheckRow[] = [
  row('C-70', table, confirmed, () => {
    expect(septetCount('°')).toBeNull();
    expect(encodingOf('°')).toBe('ucs2');
  }),
  row('C-71', table, confirmed, () => expect(septetsOf('€')).toEqual([0x1b, 0x65])),
  row('C-72', table, confirmed, () => expect(septetsOf('éèàçÉ')).toEqual([0x05, 0x04, 0x7f, 0x09, 0x1f])),
  row('C-73', table, 'R', () => {
    for (const character of 'áíóúêÇµ±²’') expect(encodingOf(character), character).toBe('ucs2');
  }),
  row('C-74', table, 'R', () => expect(septetCount('{}[]')).toBe(8)),
  row('C-75', table, confirmed, () => expect(septetsOf('@')).toEqual([0x00])),
  row('C-76', '', 'R', () => {
    const [withSign, without] = ['Bay 3 core 68.5 °C', 'Bay 3 core 68.5 C'];
    expect([encodingOf(withSign), unitCount(withSign), partCount(withSign)]).toEqual(['ucs2', 18, 1]);
    expect([encodingOf(without), unitCount(without), partCount(without)]).toEqual(['gsm', 17, 1]);
  }),
  row('C-77', 'T-6, T-7', 'R', () => {
    expect([160, 161, 306, 307].map((count) => partCount(a(count)))).toEqual([1, 2, 2, 3]);
  }),
  row('C-78', 'T-6, T-7', 'R', () => {
    const texts = [`${a(158)}€`, `${a(159)}€`];
    expect(texts.map((text) => [septetCount(text), partCount(text)])).toEqual([
      [160, 1],
      [161, 2],
    ]);
  }),
  row('C-79', 'T-9', 'R, rule from memory', () => {
    const text = `${a(152)}€${a(152)}`;
    expect([septetCount(text), partCount(text)]).toEqual([306, 3]);
  }),
  row('C-80', 'T-6, T-7', 'R', () => {
    expect([70, 71, 134, 135].map((count) => partCount('ж'.repeat(count)))).toEqual([1, 2, 2, 3]);
  }),
  row('C-81', 'T-9, T-10', 'R, rule from memory', () => {
    expect([35, 36, 66, 67].map((count) => partCount(emoji(count)))).toEqual([1, 2, 2, 3]);
    expect([66, 67].map((count) => unitCount(emoji(count)))).toEqual([132, 134]);
  }),
  row('C-82', 'TS 23.038', 'R', () => {
    expect(Buffer.from(packSeptets(septetsOf('hellohello'))).toString('hex')).toBe('e8329bfd4697d9ec37');
  }),
  row('C-83', 'TS 23.040, widely published', 'R, layout from memory', () => {
    const hex = '0011000B916407281553F80000AA0AE8329BFD4697D9EC37';
    expect(submitPdus('+46708251358', 'hellohello')).toEqual([{ hex, length: 23 }]);
  }),
  row('C-84', 'E.164', 'confirmed by lookup (secondary)', () => {
    expect(['+14155552671', '+442071838750'].map(isE164)).toEqual([true, true]);
  }),
  row('C-85', 'E.164', 'R', () => {
    expect(['+0123456789', '14155552671', '+1234567890123456'].map(isE164)).toEqual([false, false, false]);
  }),
];
