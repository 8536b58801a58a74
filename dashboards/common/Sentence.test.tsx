import type { VNode } from 'preact';
import { expect, it } from 'vitest';
import { Sentence } from './Sentence.tsx';

it('fills the gaps where the sentence has them, in any order', () => {
  const filled = { name: 'Ada', login: 'ada7' };
  const said = (node: VNode<{ children?: unknown }>) => node.props.children;
  expect(said(Sentence({ of: 'For {name} (sign-in name {login}).', with: filled }))).toEqual([
    'For ',
    'Ada',
    ' (sign-in name ',
    'ada7',
    ').',
  ]);
  expect(said(Sentence({ of: '{login}: {name}', with: filled }))).toEqual(['', 'ada7', ': ', 'Ada', '']);
});

it('leaves a sentence without gaps as it is', () => {
  const node: VNode<{ children?: unknown }> = Sentence({ of: 'Nothing to fill.', with: {} });
  expect(node.props.children).toEqual(['Nothing to fill.']);
});
