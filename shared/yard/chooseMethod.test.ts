import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type MethodAnswers, type MethodQuestion, nextMethodStep } from './chooseMethod.ts';
import { pileMethods } from './method.ts';

/** Answers every question that is asked until there is a method. */
function walk(answer: (question: MethodQuestion) => boolean) {
  const asked: MethodQuestion[] = [];
  let answers: MethodAnswers = {};
  for (;;) {
    const step = nextMethodStep(answers);
    if (step.kind === 'found') return { asked, ...step };
    asked.push(step.question);
    answers = { ...answers, [step.question]: answer(step.question) };
  }
}

it.each([
  [['worms'], 'worm-bed'],
  [['only-leaves'], 'leaf-heap'],
  [['been-hot'], 'curing-heap'],
  [['turned', 'in-a-box'], 'hot-bin'],
  [['turned'], 'turned-windrow'],
  [['fan'], 'aerated-static-pile'],
  [['channels'], 'static-cage'],
] as const)('yes to %j leads to a %s', (yes, method) => {
  const reached = walk((question) => (yes as readonly string[]).includes(question));
  expect(reached).toMatchObject({ method, lacks: null });
});

it('says what a pile lacks that stands still and has no air channels', () => {
  expect(walk(() => false)).toMatchObject({ method: 'static-cage', lacks: 'air-channels' });
});

it('comes to an end in at most seven questions, asks none twice, and can reach every method', () => {
  const reached = new Set<string>();
  fc.assert(
    fc.property(fc.array(fc.boolean(), { minLength: 7, maxLength: 7 }), (flips) => {
      const left = [...flips];
      const { asked, method } = walk(() => left.pop()!);
      reached.add(method);
      expect(new Set(asked).size).toBe(asked.length);
      expect(asked.length).toBeLessThanOrEqual(7);
    }),
    { numRuns: 500, seed: 4 },
  );
  expect([...reached].sort()).toEqual([...pileMethods].sort());
});
