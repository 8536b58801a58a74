import { expect, it } from 'vitest';
import { setAsideAdvice } from './setAsideAdvice.ts';

// Reasons as services/ingest and services/broker write them.
it.each([
  ['unknown probe urn:dev:mac:1: add it in the app first', /^Enrol/],
  ['probe urn:dev:mac:1 was revoked', /new password/],
  ['probe urn:dev:mac:1 may not publish to "x"; allowed: tilth/y/p/readings', /topic/],
  ['nobody reads topic "x"; readings go to tilth/<yard>/<probe>/readings', /topic/],
  ['name "core" does not belong to probe urn:dev:mac:1; allowed: urn:dev:mac:1_<channel>', /base name/],
  ['urn:dev:mac:1_core: no unit given: allowed Cel or K (temperature)', /unit/],
  ['urn:dev:mac:1_core: unit "C": allowed Cel or K', /unit/],
  ["urn:dev:mac:1_core: time 2099-01-01 is more than 7 days in the future; set the probe's clock", /clock/],
  ['payload of 999999 bytes; allowed: at most 262144 bytes', /Send less/],
  ['something nobody has thought of', /Compare/],
])('%s', (reason, expected) => {
  expect(setAsideAdvice(reason)).toMatch(expected);
});
