import { describe, expect, test } from 'vitest';
import { utf8FromText } from '../senml/textBytes.ts';
import { applyMapping, type MappingRule } from './mapping.ts';
import { mappingRuleSchema } from './mappingSchema.ts';

/** The shape LoRaWAN network servers commonly use: device and time outside, decoded values inside. */
const uplinkRule: MappingRule = {
  topicFilter: 'v3/+/devices/+/up',
  probe: 'urn:dev:mac:{/device/eui}',
  timePointer: '/receivedAt',
  channels: [
    { pointer: '/decoded/core', channel: 'core', unit: 'Cel' },
    { pointer: '/decoded/battery', channel: 'battery', unit: 'mV' },
  ],
};
const plainRule: MappingRule = {
  topicFilter: 'yard/+/temperature',
  probe: 'urn:dev:os:32473-{2}',
  timePointer: null,
  channels: [{ pointer: null, channel: 'core', unit: 'Cel' }],
};
const topic = 'v3/farm/devices/7/up';
const uplink = (message: unknown) => applyMapping(uplinkRule, topic, utf8FromText(JSON.stringify(message)));
const plain = (text: string, at = 'yard/bay3/temperature') => applyMapping(plainRule, at, utf8FromText(text));

const device = { eui: 'A84041000181C061' };

describe('JSON of another sender', () => {
  test('gives a record for each mapped value, with the device name in lower case', () => {
    const receivedAt = '2026-03-29T01:00:00.123456789Z';
    const timeMs = Date.UTC(2026, 2, 29, 1, 0, 0, 123);
    const probe = 'urn:dev:mac:a84041000181c061';
    expect(uplink({ device, receivedAt, decoded: { core: 61.5, battery: 3600 } })).toEqual([
      { probe, channel: 'core', name: `${probe}_core`, unit: 'Cel', value: 61.5, timeMs },
      { probe, channel: 'battery', name: `${probe}_battery`, unit: 'mV', value: 3600, timeMs },
    ]);
  });

  test('leaves out what the message does not have, and the time too', () => {
    expect(uplink({ device, decoded: { core: '61.5' } })).toMatchObject([
      { channel: 'core', value: 61.5, timeMs: null },
    ]);
  });

  test.each([
    [1_774_746_000, 1_774_746_000_000],
    [1_774_746_000_500, 1_774_746_000_500],
    ['2026-03-29T02:00:00+0100', 1_774_746_000_000],
    ['2026-03-29 02:00+01:00', 1_774_746_000_000],
  ])('time %s is understood', (receivedAt, timeMs) => {
    expect(uplink({ device, receivedAt, decoded: { core: 1 } })[0]!.timeMs).toBe(timeMs);
  });

  test.each(['2026-03-29T02:00:00', 'yesterday', true, 1e300, '2026-13-01T00:00Z'])(
    'time %s is refused',
    (receivedAt) => {
      expect(() => uplink({ device, receivedAt, decoded: { core: 1 } })).toThrow('/receivedAt');
    },
  );

  test.each([
    [{ device, decoded: {} }, '/decoded/core, /decoded/battery'],
    [{ device, decoded: { core: 'hot' } }, '"hot"'],
    [{ device, decoded: { core: null } }, 'null'],
    [{ decoded: { core: 1 } }, '{/device/eui}'],
    [{ device: { eui: 'a b' }, decoded: { core: 1 } }, 'letters, digits'],
  ])('%j is refused naming %s', (message, named) => {
    expect(() => uplink(message)).toThrow(named);
  });

  test('never reaches past the message into what objects inherit', () => {
    const rule = { ...uplinkRule, probe: 'urn:dev:os:1-{/constructor/name}', timePointer: null };
    expect(() => applyMapping(rule, topic, utf8FromText('{}'))).toThrow('{/constructor/name}');
  });
});

describe('a plain number', () => {
  test.each([
    ['61.5', 61.5],
    [' -3 \n', -3],
    ['+.5e1', 5],
  ])('%j is %d', (text, value) => {
    expect(plain(text)).toMatchObject([{ name: 'urn:dev:os:32473-bay3_core', value }]);
  });

  test.each(['', 'NaN', 'Infinity', '0x10', '61,5', '61.5 C', '1e999'])('%j is none', (text) => {
    expect(() => plain(text)).toThrow('finite number');
  });

  test('a topic the rule is not for is refused', () => {
    expect(() => plain('61.5', 'yard/bay3/humidity')).toThrow('yard/+/temperature');
  });
});

describe('the schema', () => {
  test('takes a rule and fills in what may be left out', () => {
    const { timePointer: _, ...short } = { ...plainRule, channels: [{ channel: 'core', unit: 'Cel' }] };
    expect(mappingRuleSchema.parse(short)).toEqual(plainRule);
  });

  test.each([
    ['topicFilter', 'yard/#/x'],
    ['probe', 'urn:dev:os:1-{0}'],
    ['timePointer', 'receivedAt'],
    ['channels', []],
    ['channels', [{ pointer: '/a', channel: 'a b', unit: 'Cel' }]],
    ['channels', [{ pointer: '/a', channel: 'a', unit: 'degC' }]],
  ])('refuses %s %j', (field, value) => {
    const result = mappingRuleSchema.safeParse({ ...uplinkRule, [field]: value });
    expect(result.error?.issues[0]?.path[0]).toBe(field);
  });
});
