import { expect, test } from 'vitest';
import { probeOfChannel } from './probeOfChannel.ts';

const probes = new Set(['urn:dev:ow:28aa', 'urn:dev:ow:28aa_pack2', 'plain']);

test.each([
  ['urn:dev:ow:28aa_core', 'urn:dev:ow:28aa'],
  ['urn:dev:ow:28aa_pack2_core', 'urn:dev:ow:28aa_pack2'],
  ['urn:dev:ow:28aa', 'urn:dev:ow:28aa'],
  ['plain/temperature', 'plain'],
  ['urn:dev:ow:28aab_core', null],
  ['', null],
])('%s belongs to %s', (channel, probe) => {
  expect(probeOfChannel(channel, probes)).toBe(probe);
});
