import type { PileMethod } from './method.ts';

/** What a person is asked, in plain words elsewhere, to find how a pile is run. Each takes yes or no. */
export type MethodQuestion =
  | 'worms'
  | 'only-leaves'
  | 'been-hot'
  | 'turned'
  | 'in-a-box'
  | 'fan'
  | 'channels';

export type MethodAnswers = Readonly<Partial<Record<MethodQuestion, boolean>>>;

export type MethodStep =
  | { readonly kind: 'ask'; readonly question: MethodQuestion }
  | {
      readonly kind: 'found';
      readonly method: PileMethod;
      /** The nearest method there is, though the pile lacks what it lives by. */
      readonly lacks: 'air-channels' | null;
    };

const ask = (question: MethodQuestion): MethodStep => ({ kind: 'ask', question });
const found = (method: PileMethod, lacks: 'air-channels' | null = null): MethodStep => ({
  kind: 'found',
  method,
  lacks,
});

/** The next question that still matters, or the method the answers lead to. */
export function nextMethodStep(answers: MethodAnswers): MethodStep {
  const { worms, turned, channels, fan } = answers;
  if (worms === undefined) return ask('worms');
  if (worms) return found('worm-bed');
  if (answers['only-leaves'] === undefined) return ask('only-leaves');
  if (answers['only-leaves']) return found('leaf-heap');
  if (answers['been-hot'] === undefined) return ask('been-hot');
  if (answers['been-hot']) return found('curing-heap');
  if (turned === undefined) return ask('turned');
  if (turned) {
    if (answers['in-a-box'] === undefined) return ask('in-a-box');
    return found(answers['in-a-box'] ? 'hot-bin' : 'turned-windrow');
  }
  if (fan === undefined) return ask('fan');
  if (fan) return found('aerated-static-pile');
  if (channels === undefined) return ask('channels');
  return found('static-cage', channels ? null : 'air-channels');
}
