import { expect, test } from 'vitest';
import { type AlarmText, composeAlarmText, durationWords } from './compose.ts';
import { septetCount } from './gsm.ts';

const text: AlarmText = {
  name: 'Cage 2',
  place: 'bay 3',
  what: 'core too hot',
  measured: { label: 'core', value: 72.44, limit: 71, unit: 'C' },
  temperatureUnit: 'C',
  lastedMinutes: 35,
  firstAction: 'Do not turn it. Check the air channels are open, then wet it.',
  code: 'K7',
  link: 'http://x.test/a/AbCdEf',
};

test('says where, what, value, limit, how long, what to do and how to answer', () => {
  expect(composeAlarmText(text)).toBe(
    'bay 3, Cage 2: core too hot 72.4 C (limit 71 C) for 35 min. Do not turn it. Check the air channels are open, then wet it. Seen K7: http://x.test/a/AbCdEf',
  );
});

test("speaks the yard's unit", () => {
  expect(composeAlarmText({ ...text, temperatureUnit: 'F' })).toContain('162.4 F (limit 159.8 F)');
});

test('moisture in percent, silence in minutes', () => {
  const dry = { label: 'moisture', value: 0.412, limit: 0.6, unit: 'fraction' } as const;
  expect(composeAlarmText({ ...text, what: 'drying out', measured: dry })).toContain(
    'drying out 41 % (limit 60 %)',
  );
  expect([durationWords(35), durationWords(180), durationWords(4000)]).toEqual(['35 min', '3 h', '3 d']);
});

test.each([
  ['https://compost.gannet-row.example.org/a/AbCdEfGhIjKlMnOp'],
  [`https://${'long.'.repeat(20)}example.org/a/AbCdEfGhIjKlMnOp`],
])('is one segment with odd names and %s, and never loses the action or the code', (link) => {
  const odd = {
    ...text,
    name: 'Žofie’s “big” — 70 °C cage of the north',
    place: 'Ærøskøbing corner, far east',
    link,
  };
  const composed = composeAlarmText(odd);
  expect(septetCount(composed)).toBeLessThanOrEqual(160);
  expect(composed).not.toContain('°');
  expect(composed).toContain(text.firstAction);
  expect(composed).toContain('K7');
});

test('too long, it gives up the place, then how long, then the limit, and the link last', () => {
  const link = (length: number) => `http://x.test/a/${'A'.repeat(length)}`;
  const composed = [8, 14, 22, 34, 60].map((length) => composeAlarmText({ ...text, link: link(length) }));
  const says = (part: string) => composed.map((one) => one.includes(part));
  expect(says('bay 3,')).toEqual([true, false, false, false, false]);
  expect(says('for 35 min')).toEqual([true, true, false, false, false]);
  expect(says('(limit 71 C)')).toEqual([true, true, true, false, false]);
  expect(says('http://')).toEqual([true, true, true, true, false]);
});
