import { expect } from 'vitest';
import { decodeSenml, type SenmlError } from '../../shared/senml/decodeSenml.ts';
import { encodeSenmlCbor } from '../../shared/senml/encodeSenml.ts';
import { resolve } from '../../shared/senml/resolve.ts';
import { resolveTime } from '../../shared/senml/resolveTime.ts';
import { toPrimaryUnit } from '../../shared/senml/units.ts';
import { isReadableVersion } from '../../shared/senml/version.ts';
import { canonicaliseSenmlValue } from '../../shared/units/senmlUnits.ts';
import type { CheckRow } from './checkRow.ts';
import {
  currentsCbor,
  currentsPack,
  currentsResolved,
  kindsPack,
  settingsPack,
  trackedPack,
  twoRoomsPack,
} from './senmlExamples.ts';

const nowMs = 1_700_000_000_000;
const decodeJson = (pack: unknown) => decodeSenml(Buffer.from(JSON.stringify(pack)), { nowMs });

/** Code and field of the error a pack is refused with; fails the test when it is accepted. */
function refusal(pack: unknown): string {
  try {
    decodeJson(pack);
  } catch (error) {
    return (error as SenmlError).code;
  }
  throw new Error('the pack was accepted');
}

function timeOf(pack: unknown): number {
  return decodeJson(pack)[0]!.timeSeconds;
}

function expectCurrents(payload: Uint8Array): void {
  const resolved = decodeSenml(payload, { nowMs });
  const start = 'urn:dev:ow:10e2073a0108006:'.length;
  const found = resolved.map(({ name, unit, value, timeSeconds }) => [
    name.slice(start),
    unit,
    value,
    timeSeconds,
  ]);
  expect(found).toEqual(currentsResolved);
  expect(resolved.every(({ version }) => version === 5)).toBe(true);
}

const row = (id: string, source: string, status: string, check: () => void): CheckRow => ({
  id,
  source,
  status,
  check,
});
const confirmed = 'confirmed by lookup';
const recomputed = 'confirmed by lookup, R';

export const rows: CheckRow[] = [
  row('C-01', 'RFC 8428 4.5.3', confirmed, () => {
    expect(resolveTime(268_435_455, nowMs, 0).timeMs).toBe(nowMs + 268_435_455_000);
  }),
  row('C-02', '4.5.3', recomputed, () => {
    expect(timeOf([{ n: 'a', t: 268_435_456, v: 1 }])).toBe(Date.parse('1978-07-04T21:24:16Z') / 1000);
  }),
  row('C-03', '4.5.3', recomputed, () => {
    expect(timeOf([{ n: 'a', bt: 268_435_450, t: 6, v: 1 }])).toBe(268_435_456);
  }),
  row('C-04', '4.5.3', 'R', () => {
    expect(timeOf([{ n: 'a', bt: 1_320_067_464, t: -5, v: 1 }])).toBe(1_320_067_459);
  }),
  row('C-05', '4.5.3', 'R', () => {
    expect(timeOf([{ n: 'a', t: -300, v: 1 }])).toBe(1_699_999_700);
  }),
  row('C-06', '5.1.2', recomputed, () => expectCurrents(Buffer.from(JSON.stringify(currentsPack)))),
  row('C-07', '5.1.4', recomputed, () => {
    const start = 1_320_067_464;
    const offsets = [0, 0, 0, 60, 60, 60, 120, 120, 120, 150, 180, 180, 180];
    const resolved = decodeJson(trackedPack);
    expect(resolved.map(({ timeSeconds }) => timeSeconds - start)).toEqual(offsets);
    expect(new Set(resolved.map(({ name }) => name)).size).toBe(1);
    expect(resolved[9]).toMatchObject({ unit: '%EL', value: 98 });
    expect(new Date(resolved[0]!.timeMs).toISOString()).toBe('2011-10-31T13:24:24.000Z');
  }),
  row('C-08', '5.1.6', confirmed, () => {
    const resolved = decodeJson(twoRoomsPack);
    expect(resolved.at(-1)).toMatchObject({ name: '2001:db8::1/humidity', unit: '%RH', value: 67 });
    expect(resolved.map(({ timeSeconds }) => timeSeconds)).toEqual(Array(4).fill(1_320_078_429));
  }),
  row('C-09', '5.1.7', 'confirmed by lookup; reading ours', () => {
    expect(decodeJson(settingsPack).map(({ value }) => value)).toEqual([23.1, 1, 0]);
  }),
  row('C-10', '6', recomputed, () => {
    expect(currentsCbor.length).toBe(195);
    expectCurrents(currentsCbor);
    // The RFC's CBOR writes the last time offset out where its JSON leaves it away.
    const written = encodeSenmlCbor(currentsPack.with(-1, { n: 'current', t: 0, v: 1.7 }));
    expect(Buffer.from(written).toString('hex')).toBe(currentsCbor.toString('hex'));
  }),
  row('C-11', '5.1.5', 'R', () => {
    expect(decodeJson(kindsPack).at(-1)).toMatchObject({
      kind: 'data',
      value: Uint8Array.of(0x68, 0x69, 0x20, 0x0a),
    });
  }),
  row('C-12', '4.5.1', confirmed, () => {
    const names = ['_urn:dev:ow:x', '/a', 'a b', 'a+b', ''];
    expect(names.map((n) => refusal([{ n, v: 1 }]))).toEqual(Array(5).fill('name'));
  }),
  row('C-13', '4.5.1', confirmed, () => {
    expect(decodeJson([{ bn: '2001:db8::2', n: '/t', v: 1 }])[0]!.name).toBe('2001:db8::2/t');
  }),
  row('C-14', '4.2', confirmed, () => expect(refusal([{ n: 'a', v: 1, vs: 'x' }])).toBe('several-values')),
  row('C-15', '4.2', confirmed, () => {
    expect(decodeJson([{ n: 'a', s: 5 }])[0]).toMatchObject({ kind: 'sum', value: 5, sum: 5 });
  }),
  row('C-16', '4.4', confirmed, () => {
    expect(decodeJson([{ n: 'a', v: 1, foo: 2 }])).toHaveLength(1);
    expect(refusal([{ n: 'a', v: 1, foo_: 2 }])).toBe('unknown-label');
  }),
  row('C-17', 'RFC 9100 2.2', confirmed, () => {
    expect([42, 26, 10].map((version) => isReadableVersion(version, [5]))).toEqual([true, false, true]);
    expect(() => resolve([{ bver: 26, n: 'a', v: 1 }], { nowMs, understoodFeatures: [5] })).toThrow('bver');
  }),
  row('C-18', 'RFC 8798 3', confirmed, () => {
    expect(decodeJson([{ bver: 26, n: 'a', u: 'dBm', v: 10 }])[0]).toMatchObject({ unit: 'dBW', value: -20 });
  }),
  row('C-19', 'arithmetic', 'R', () =>
    expect(toPrimaryUnit(-71, 'dBm')).toEqual({ unit: 'dBW', value: -101 }),
  ),
  row('C-20', 'RFC 8798 3', confirmed, () => {
    expect(toPrimaryUnit(100, 'ms')).toEqual({ unit: 's', value: 0.1 });
  }),
  row('C-21', 'RFC 8798 note 1', confirmed, () => {
    expect(canonicaliseSenmlValue('/100', 55)).toMatchObject({ value: 0.55, doubt: null });
    expect(canonicaliseSenmlValue('%', 55)).toMatchObject({
      value: 55,
      doubt: expect.stringContaining('0.55'),
    });
  }),
];
