import { expect, it } from 'vitest';
import { createJudgementWatch } from './judgementWatch.ts';

it('says that judgement has caught up, and how long it took', async () => {
  const lag = await createJudgementWatch({ settle: async () => {} }).look();
  expect(lag).toMatchObject({ isCaughtUp: true, problem: null });
  expect(lag.seconds).toBeLessThan(5);
});

it('does not wait for ever for one that is behind, and tells a lag that grows', async () => {
  let finish = () => {};
  let asked = 0;
  const settle = () => {
    asked++;
    return new Promise<void>((resolve) => {
      finish = resolve;
    });
  };
  const watch = createJudgementWatch({ settle }, 20);
  const first = await watch.look();
  const second = await watch.look();
  expect([first.isCaughtUp, second.isCaughtUp]).toEqual([false, false]);
  expect(second.seconds).toBeGreaterThan(first.seconds);
  expect(asked).toBe(1);
  finish();
  await new Promise((resolve) => setImmediate(resolve));
  const third = watch.look();
  expect(asked).toBe(2);
  finish();
  expect((await third).isCaughtUp).toBe(true);
});

it('tells why judging failed', async () => {
  const settle = () => Promise.reject(new Error('database is locked'));
  const lag = await createJudgementWatch({ settle }).look();
  expect(lag).toMatchObject({ isCaughtUp: false, problem: 'database is locked' });
});
