import { expect, it } from 'vitest';
import type { WallPile, WallView } from '../../shared/api/types.ts';
import { mergeWall, wantedPiles } from './mergeWall.ts';

const pile = (id: string, celsius = 50, alarm?: string) =>
  ({ id, core: { celsius, timeMs: 1 }, alarms: alarm ? [{ id: alarm }] : [] }) as unknown as WallPile;
const view = (...piles: WallPile[]) => ({ piles, unacknowledgedCount: piles.length }) as unknown as WallView;

it('fetches only piles that changed, by themselves or by an alarm they show', () => {
  const wall = view(pile('a', 50, 'alarm-1'), pile('b'));
  const changes = [
    { kind: 'alarm', id: 'alarm-1' },
    { kind: 'pile', id: 'new' },
    { kind: 'probe', id: 'x' },
  ] as const;
  expect([...wantedPiles(wall, changes)!]).toEqual(['a', 'new']);
});

it('fetches everything for the yard, an unknown alarm, or too many piles', () => {
  const many = Array.from({ length: 41 }, (_, index) => ({ kind: 'pile', id: `${index}` }) as const);
  expect(wantedPiles(view(), [{ kind: 'yard', id: null }])).toBeNull();
  expect(wantedPiles(view(pile('a')), [{ kind: 'alarm', id: 'unknown' }])).toBeNull();
  expect(wantedPiles(view(), many)).toBeNull();
});

it('keeps the very objects of piles that did not change, so that their tiles are not drawn again', () => {
  const before = view(pile('a'), pile('b'), pile('c'));
  const after = mergeWall(before, view(pile('b', 51)), new Set(['b']));
  expect(after.piles.map(({ id }) => id).sort()).toEqual(['a', 'b', 'c']);
  expect(after.piles.find(({ id }) => id === 'a')).toBe(before.piles[0]);
  expect(after.piles.find(({ id }) => id === 'b')!.core!.celsius).toBe(51);
  const whole = mergeWall(before, view(pile('a'), pile('b', 52)), null);
  expect([
    whole.piles[0] === before.piles[0],
    whole.piles[1] === before.piles[1],
    whole.piles.length,
  ]).toEqual([true, false, 2]);
});

it('drops a pile that was asked for and is not there any more', () => {
  expect(mergeWall(view(pile('a'), pile('b')), view(), new Set(['a'])).piles.map(({ id }) => id)).toEqual([
    'b',
  ]);
});
