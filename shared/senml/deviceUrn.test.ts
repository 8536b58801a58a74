import { describe, expect, test } from 'vitest';
import { deviceUrnFromEui48, isSameDeviceUrn, parseDeviceUrn } from './deviceUrn.ts';

describe('parsing', () => {
  test.each([
    ['urn:dev:mac:0024beffff804ff1', 'mac', []],
    ['urn:dev:mac:acde48234567019f', 'mac', []],
    ['urn:dev:ow:10e2073a01080063', 'ow', []],
    ['urn:dev:ow:264437f5000000ed_humidity', 'ow', ['humidity']],
    ['urn:dev:org:32473-foo', 'org', []],
    ['urn:dev:os:32473-12-34-56', 'os', []],
    ['urn:dev:os:32473-1:a:b_core_2', 'os', ['core', '2']],
    ['urn:dev:ops:32473-Refrigerator-5002', 'ops', []],
    ['urn:dev:example:new-1-2-3_comp', 'other', ['comp']],
    ['URN:DEV:ow:10e2073a01080063', 'ow', []],
  ])('%s (RFC 9039 section 5)', (text, kind, components) => {
    expect(parseDeviceUrn(text)).toMatchObject({ ok: true, urn: { kind, components } });
  });

  test.each([
    ['28139bbb0b00001f', 'urn:dev:'],
    ['urn:dev:ow:28139BBB0B00001F', 'lower-case'],
    ['urn:dev:ow:28139bbb0b00001f:core', '16'],
    ['urn:dev:mac:0024be804ff1', '16'],
    ['urn:dev:os:032473-1', 'enterprise number'],
    ['urn:dev:ops:32473-5002', 'product'],
    ['urn:dev:os:32473-1_', 'after each "_"'],
    ['urn:dev:os:32473-a%20b', 'enterprise number'],
    ['urn:dev:', 'kind'],
  ])('%s is refused and told what is allowed', (text, allowed) => {
    expect(parseDeviceUrn(text)).toMatchObject({ ok: false, problem: expect.stringContaining(allowed) });
  });

  test('the check byte of a 1-Wire name is looked at, not insisted on', () => {
    const crcOf = (text: string) => {
      const result = parseDeviceUrn(text);
      return result.ok && result.urn.hasValidCrc;
    };
    expect(['urn:dev:ow:264437f5000000ed', 'urn:dev:ow:264437f5000000ee'].map(crcOf)).toEqual([true, false]);
  });
});

test('only urn and dev are compared without regard to case', () => {
  expect(isSameDeviceUrn('URN:Dev:os:32473-a', 'urn:dev:os:32473-a')).toBe(true);
  expect(isSameDeviceUrn('urn:dev:os:32473-A', 'urn:dev:os:32473-a')).toBe(false);
});

test('what is not an address gives no name', () => {
  expect(['0024be804f', '0024be804fzz', '', '0024be804ff1ff'].map(deviceUrnFromEui48)).toEqual(
    Array(4).fill(null),
  );
});
