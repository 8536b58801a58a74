import type { VNode } from 'preact';
import { expect, it } from 'vitest';
import { alarmStates, priorities } from '../../shared/alarms/alarm.ts';
import { Flag } from './Flag.tsx';
import { alarmStateShort, alarmStateWords, conditionWords, priorityWords } from './words.ts';

type Shape = { readonly d: string; readonly fill?: string; readonly 'stroke-dasharray'?: string };

function shapesOf(priority: (typeof priorities)[number], state: (typeof alarmStates)[number]) {
  const flag = Flag({ priority, state }) as VNode<{ children: VNode<Shape>[] }>;
  const [pole, cloth] = flag.props.children.map(({ props }) => props);
  return { cloth: cloth!.d, filled: cloth!.fill !== 'none', broken: pole!['stroke-dasharray'] !== undefined };
}

it('has another cloth for each priority, whatever the state', () => {
  for (const state of alarmStates)
    expect(new Set(priorities.map((priority) => shapesOf(priority, state).cloth)).size).toBe(
      priorities.length,
    );
});

it('is filled while nobody has seen it and has a broken pole when it is over', () => {
  const seen = alarmStates.map((state) => [state, shapesOf('high', state)] as const);
  expect(seen.filter(([, { filled }]) => filled).map(([state]) => state)).toEqual([
    'unacknowledged',
    'returned-unacknowledged',
    'latched-unacknowledged',
  ]);
  expect(seen.filter(([, { broken }]) => broken).map(([state]) => state)).toEqual([
    'returned-unacknowledged',
  ]);
});

it('goes with words of its own for every condition, state and priority', () => {
  for (const words of [conditionWords, alarmStateWords, alarmStateShort, priorityWords]) {
    const texts = Object.values(words);
    expect(new Set(texts).size).toBe(texts.length);
  }
});
