import { describe, expect, test } from 'vitest';
import { mayBeTurned, pileMethods } from '../../yard/method.ts';
import { hotAdvice, hotLadder } from './hotLadder.ts';

describe('heat ladder', () => {
  test('rungs rise and each says what not to do', () => {
    const edges = hotLadder.map((band) => band.fromCelsius);
    expect(edges).toEqual([...edges].sort((one, other) => one - other));
    expect(hotLadder.slice(1).every((band) => band.doNot.length > 0)).toBe(true);
  });

  test.each([59.9, 60, 65, 71.1, 72, 79.99, 80, 93])(
    'nobody is told to turn a pile that may not be turned at %f C, a curing heap among them',
    (celsius) => {
      const others = pileMethods.filter((method) => !mayBeTurned(method));
      expect(others).toContain('curing-heap');
      for (const method of others) {
        const { title, do: steps } = hotAdvice(celsius, method);
        expect([title, ...steps].join(' '), method).not.toMatch(/\bturn\b/i);
      }
    },
  );

  test('from 80 C up no method is told to open, turn, dig or water alone', () => {
    for (const method of pileMethods) {
      for (let celsius = 80; celsius <= 120; celsius += 0.5) {
        const { do: steps } = hotAdvice(celsius, method);
        expect(steps.join('. ')).not.toMatch(/\b(turn|open|dig|drench|water|spread)\b/i);
        expect(steps.join('. ')).toMatch(/fire service|emergency/);
      }
    }
  });

  test('smoke is a fire whatever the probe reads', () => {
    expect(hotAdvice(12, 'static-cage', true).title).toContain('fire');
  });

  test('below the ladder there is nothing to do', () => {
    expect(hotAdvice(55, 'hot-bin')).toEqual({ band: 'normal', title: 'not too hot', do: [], doNot: [] });
  });
});
