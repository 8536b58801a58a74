import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isValidTopicFilter, isValidTopicName, parseSharedFilter, topicMatches } from './topicFilter.ts';

describe('validity', () => {
  test.each(['a', '/', 'a//b', '+', '#', '+/+/#', '/#', '$SYS/#', '$share/g/a/#', '$shared/x', ' '])(
    'filter %j is valid',
    (filter) => expect(isValidTopicFilter(filter)).toBe(true),
  );

  test.each(['', 'a#', '#/a', 'a/+b', 'a\0b', '$share', '$share/', '$share/g/', '$share/g/a#', '$share/#/a'])(
    'filter %j is not',
    (filter) => expect(isValidTopicFilter(filter)).toBe(false),
  );

  test('the length counts in bytes', () => {
    expect(isValidTopicFilter('é'.repeat(32_767))).toBe(true);
    expect(isValidTopicFilter('é'.repeat(32_768))).toBe(false);
  });

  test('a topic has no wildcards', () => {
    expect(['a/b', '$SYS/a', ''].map(isValidTopicName)).toEqual([true, true, false]);
    expect(['a/+', '#', 'a\0'].map(isValidTopicName)).toEqual([false, false, false]);
  });
});

describe('matching', () => {
  test.each([
    ['tilth/+/+/readings', 'tilth/gannet/p1/readings', true],
    ['tilth/+/+/readings', 'tilth/gannet/p1/readings/x', false],
    ['tilth/+/+/readings', 'tilth/gannet/readings', false],
    ['a/b', 'A/b', false],
    ['a/', 'a', false],
    ['#', '/', true],
    ['+', '', true],
    ['$share/g/a/+', 'a/b', true],
    ['$share/g/#', '$SYS/x', false],
    ['$SYS/+', '$SYS/x', true],
  ])('%s on %s: %s', (filter, topic, expected) => {
    expect(topicMatches(filter, topic)).toBe(expected);
  });

  const levels = fc.array(fc.stringMatching(/^[a-z]{0,3}$/), { minLength: 1, maxLength: 5 });

  test('a topic matches itself, and itself with any one level replaced by +', () => {
    fc.assert(
      fc.property(levels, fc.nat(), (topic, place) => {
        const filter = topic.with(place % topic.length, '+');
        expect(topicMatches(topic.join('/'), topic.join('/'))).toBe(true);
        expect(topicMatches(filter.join('/'), topic.join('/'))).toBe(true);
      }),
    );
  });

  test('a filter ending in # matches the parent and everything below, nothing beside', () => {
    fc.assert(
      fc.property(levels, levels, (parent, below) => {
        const filter = [...parent, '#'].join('/');
        expect(topicMatches(filter, parent.join('/'))).toBe(true);
        expect(topicMatches(filter, [...parent, ...below].join('/'))).toBe(true);
        expect(topicMatches(filter, [...parent.with(-1, 'beside'), ...below].join('/'))).toBe(false);
      }),
    );
  });
});

test('a shared subscription is taken apart', () => {
  expect(parseSharedFilter('$share/g/tilth/+')).toEqual({ shareName: 'g', filter: 'tilth/+' });
  expect(parseSharedFilter('tilth/+')).toBeNull();
});
