import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { justMoved, type WatchedChannel } from './justMoved.ts';

const sinceMs = 1_000_000;
/** A channel with five values before the start of the watch and some after it, ten seconds apart. */
function channel(name: string, before: readonly number[], after: readonly number[]): WatchedChannel {
  const at = (index: number) => sinceMs + (index - before.length) * 10_000;
  return {
    channel: name,
    points: [...before, ...after].map((value, index) => ({ timeMs: at(index + 1), value })),
  };
}
const still = (name: string) => channel(name, [15, 15.06, 15, 15, 15.06], [15, 15.06, 15]);

describe('the channel that was warmed in a hand', () => {
  it('is told apart from those that lie on the bench', () => {
    const warm = channel('warm', [15, 15, 15.06, 15, 15], [16.5, 20.1, 24.3]);
    const moved = justMoved([still('a'), warm, still('b')], sinceMs);
    expect(moved).toMatchObject({ kind: 'one', channel: 'warm' });
    expect(moved.kind === 'one' && moved.changeCelsius).toBeCloseTo(9.3, 5);
  });

  it('is nobody while nothing has moved', () => {
    expect(justMoved([still('a'), still('b')], sinceMs)).toEqual({ kind: 'none' });
    expect(justMoved([], sinceMs)).toEqual({ kind: 'none' });
  });

  it('may be a cooled one: on a hot day a hand warms nothing, cold water does', () => {
    const cold = channel('cold', [31, 31, 31, 31, 31], [27, 22]);
    expect(justMoved([still('a'), cold], sinceMs)).toMatchObject({ kind: 'one', changeCelsius: -9 });
  });

  it('is not guessed at when two moved alike: they are named, to hold one alone', () => {
    const both = ['one', 'two'].map((name) => channel(name, [15, 15, 15], [18, 21]));
    const moved = justMoved([...both, still('a')], sinceMs);
    expect(moved).toEqual({ kind: 'several', channels: ['one', 'two'] });
  });

  it('is found beside sensors the sun warms a little', () => {
    const sunny = ['a', 'b'].map((name) => channel(name, [20, 20, 20], [21, 22]));
    const warm = channel('warm', [20, 20, 20], [24, 28]);
    expect(justMoved([...sunny, warm], sinceMs)).toMatchObject({ kind: 'one', channel: 'warm' });
  });

  it('is not one that wavers by itself', () => {
    const shaky = channel('shaky', [14, 16, 15, 17, 13], [16.5]);
    expect(justMoved([shaky, still('a')], sinceMs)).toEqual({ kind: 'none' });
  });

  it('is found when it had said nothing before, by its first value after', () => {
    const fresh = channel('fresh', [], [15, 17, 20]);
    expect(justMoved([fresh], sinceMs)).toMatchObject({ kind: 'one', channel: 'fresh', changeCelsius: 5 });
    expect(justMoved([channel('fresh', [], [30])], sinceMs)).toEqual({ kind: 'none' });
  });

  it('is let go again once it has cooled down', () => {
    const cooled = channel('warm', [15, 15, 15], [22, 25, 18, 15.2]);
    expect(justMoved([cooled], sinceMs)).toEqual({ kind: 'none' });
  });
});

it('never names a channel that moved less than a degree, and always the one of many that alone moved far', () => {
  const wobble = fc.double({ min: -0.05, max: 0.05, noNaN: true });
  fc.assert(
    fc.property(
      fc.array(fc.array(wobble, { minLength: 8, maxLength: 8 }), { minLength: 1, maxLength: 12 }),
      fc.double({ min: 3, max: 20, noNaN: true }),
      fc.nat(),
      (noises, rise, pick) => {
        const quiet = noises.map((noise, index) =>
          channel(
            `c${index}`,
            noise.slice(0, 5).map((one) => 12 + one),
            noise.slice(5).map((one) => 12 + one),
          ),
        );
        expect(justMoved(quiet, sinceMs)).toEqual({ kind: 'none' });
        const chosen = pick % quiet.length;
        const watched = quiet.map((one, index) =>
          index !== chosen
            ? one
            : {
                ...one,
                points: one.points.map((p) => (p.timeMs > sinceMs ? { ...p, value: p.value + rise } : p)),
              },
        );
        expect(justMoved(watched, sinceMs)).toMatchObject({ kind: 'one', channel: `c${chosen}` });
      },
    ),
    { seed: 7 },
  );
});
