import { describe, expect, test } from 'vitest';
import { afterLostLink, readSensor } from './referenceProbe.ts';

describe('the reference probe reads the kernel’s 1-Wire file', () => {
  test('a good conversion', () => {
    expect(readSensor('91 01 4b 46 7f ff 0f 10 25 : crc=25 YES\n91 01 4b 46 7f ff 0f 10 25 t=25062\n')).toBe(
      25.062,
    );
    expect(readSensor('5e ff 4b 46 7f ff 02 10 5d : crc=5d YES\n5e ff 4b 46 7f ff 02 10 5d t=-10125\n')).toBe(
      -10.125,
    );
  });

  test.each([
    ['checksum failed', '91 01 4b 46 7f ff 0f 10 26 : crc=25 NO\n91 01 4b 46 7f ff 0f 10 26 t=25062\n'],
    ['conversion failed', 'ff 07 4b 46 7f ff 0c 10 a6 : crc=a6 YES\nff 07 4b 46 7f ff 0c 10 a6 t=127937\n'],
    ['bus stuck low', '00 00 00 00 00 00 00 00 00 : crc=00 YES\n00 00 00 00 00 00 00 00 00 t=0\n'],
    ['nothing', ''],
  ])('%s is no reading', (_name, text) => {
    expect(readSensor(text)).toBeNull();
  });
});

describe('the reference probe after a lost link', () => {
  const reading = (t: number) => ({ n: 'core', v: 60, t });

  test('sends what was never acknowledged, then repeats what was acknowledged lately', () => {
    const sent = [
      { ...reading(1), sentMs: 0 },
      { ...reading(2), sentMs: 50_000 },
    ];
    expect(afterLostLink(sent, [reading(3)], 100_000, 60)).toEqual([reading(3), reading(2)]);
  });

  test('repeats nothing when it is told to repeat nothing', () => {
    expect(afterLostLink([{ ...reading(2), sentMs: 50_000 }], [], 100_000, 0)).toEqual([]);
  });
});
