import { describe, expect, it } from 'vitest';
import { groupCommits } from './groupCommit.ts';

/** A store whose commits end when the test says so. */
function slowStore() {
  const commits: { readonly items: readonly number[]; end(error?: Error): void }[] = [];
  const group = groupCommits<number, string>({
    commit: (items) =>
      new Promise((resolve, reject) => {
        const end = (error?: Error) => (error === undefined ? resolve(items.map(String)) : reject(error));
        commits.push({ items, end });
      }),
    size: (item) => item,
    largestGroup: 10,
  });
  return { commits, group };
}
const turn = () => new Promise((resolve) => setImmediate(resolve));

describe('groupCommits', () => {
  it('lets a flood share the commit after the one under way', async () => {
    const { commits, group } = slowStore();
    const first = group.add(1);
    await turn();
    const rest = [group.add(2), group.add(3)];
    commits[0]!.end();
    expect(await first).toBe('1');
    await turn();
    expect(commits[1]!.items).toEqual([2, 3]);
    commits[1]!.end();
    expect(await Promise.all(rest)).toEqual(['2', '3']);
  });

  it('keeps a group within its bound, and lets one larger item go alone', async () => {
    const { commits, group } = slowStore();
    const all = [group.add(4), group.add(6), group.add(50), group.add(1)];
    for (let index = 0; index < 3; index++) {
      await turn();
      commits[index]!.end();
    }
    await Promise.all(all);
    expect(commits.map(({ items }) => items)).toEqual([[4, 6], [50], [1]]);
  });

  it('rejects the whole group that failed and goes on with the next', async () => {
    const { commits, group } = slowStore();
    const failing = Promise.allSettled([group.add(1), group.add(2)]);
    await turn();
    const later = group.add(3);
    commits[0]!.end(new Error('disk full'));
    expect((await failing).map(({ status }) => status)).toEqual(['rejected', 'rejected']);
    await turn();
    commits[1]!.end();
    expect(await later).toBe('3');
  });
});
