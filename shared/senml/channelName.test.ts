import { describe, expect, test } from 'vitest';
import { probeOwnsName, splitChannelName } from './channelName.ts';

describe('splitting a full name', () => {
  test.each([
    ['urn:dev:ow:28139bbb0b00001f_core', 'urn:dev:ow:28139bbb0b00001f', 'core'],
    ['urn:dev:ow:28139bbb0b00001f_core_2', 'urn:dev:ow:28139bbb0b00001f', 'core_2'],
    ['urn:dev:ow:10e2073a01080063:voltage', 'urn:dev:ow:10e2073a01080063', 'voltage'],
    ['urn:dev:ow:10e2073a01080063:bed_1', 'urn:dev:ow:10e2073a01080063', 'bed_1'],
    ['urn:dev:os:32473-12:unit3_core', 'urn:dev:os:32473-12:unit3', 'core'],
    ['urn:dev:os:32473-12:core', 'urn:dev:os:32473-12', 'core'],
    ['URN:DEV:os:32473-12_core', 'urn:dev:os:32473-12', 'core'],
  ])('%s', (name, probe, channel) => {
    expect(splitChannelName(name)).toEqual({ probe, channel });
  });

  test.each([
    'core',
    'urn:dev:ow:28139bbb0b00001f',
    'urn:dev:ow:28139bbb0b00001f_',
    'urn:dev:os:32473-12',
    '_core',
    '',
  ])('"%s" has no probe and channel', (name) => {
    expect(splitChannelName(name)).toBeNull();
  });
});

describe('ownership', () => {
  const probe = 'urn:dev:os:32473-12';

  test.each([`${probe}_core`, `${probe}:core`, `${probe}_core_2`])('%s belongs to the probe', (name) => {
    expect(probeOwnsName(probe, name)).toBe(true);
  });

  test.each([
    `${probe}3_core`,
    probe,
    `${probe}_`,
    `${probe}/core`,
    'urn:dev:os:32473-1_core',
    `${probe}_a b`,
  ])('%s does not', (name) => {
    expect(probeOwnsName(probe, name)).toBe(false);
  });

  test('an empty probe owns nothing', () => {
    expect(probeOwnsName('', '_core')).toBe(false);
  });
});
