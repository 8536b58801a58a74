import { expect, it } from 'vitest';
import type { WallAlarm, WallPile } from './types.ts';
import { byPlace, worstFirst } from './wallOrder.ts';

const pile = (name: string, place: string, alarm?: Partial<WallAlarm>) =>
  ({ name, place, alarms: alarm ? [alarm] : [] }) as unknown as WallPile;

const piles = [
  pile('Heap 10', 'bay 2'),
  pile('Heap 9', 'bay 10'),
  pile('seen', 'bay 1', { priority: 'high', state: 'acknowledged' }),
  pile('held', 'bay 3', { priority: 'high', state: 'latched-unacknowledged' }),
  pile('fire', 'bay 4', { priority: 'highest', state: 'latched-acknowledged' }),
];
const names = (order: (one: WallPile, other: WallPile) => number) =>
  [...piles].sort(order).map(({ name }) => name);

it('puts the most pressing first, the unseen before the seen, the quiet by name with numbers counted', () => {
  expect(names(worstFirst)).toEqual(['fire', 'held', 'seen', 'Heap 9', 'Heap 10']);
});

it('walks the yard by place whatever is wrong where', () => {
  expect(names(byPlace)).toEqual(['seen', 'Heap 10', 'held', 'fire', 'Heap 9']);
});
