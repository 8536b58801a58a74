/**
 * Joins concurrent calls into groups: while one group is being committed the next one gathers, and goes as soon as the
 * disk is free. A lone call therefore waits for nobody, and a flood shares each flush among thousands.
 */
export interface GroupCommit<Item, Result> {
  add(item: Item): Promise<Result>;
  /** Resolves when everything added so far has been committed or refused. */
  settled(): Promise<void>;
}

interface Pending<Item, Result> {
  readonly item: Item;
  resolve(result: Result): void;
  reject(error: unknown): void;
}

/**
 * `commit` stores a whole group and answers one result per item in order, or rejects and then the whole group is
 * rejected. `size` and `largestGroup` bound a group; a single larger item goes alone.
 */
export function groupCommits<Item, Result>(options: {
  readonly commit: (items: readonly Item[]) => Promise<readonly Result[]>;
  readonly size: (item: Item) => number;
  readonly largestGroup: number;
}): GroupCommit<Item, Result> {
  let pending: Pending<Item, Result>[] = [];
  let running: Promise<void> | null = null;

  async function run(): Promise<void> {
    while (pending.length > 0) {
      const group = takeGroup();
      try {
        const results = await options.commit(group.map(({ item }) => item));
        for (const [index, { resolve }] of group.entries()) resolve(results[index]!);
      } catch (error) {
        for (const { reject } of group) reject(error);
      }
    }
    running = null;
  }

  function takeGroup(): Pending<Item, Result>[] {
    let size = 0;
    const cut = pending.findIndex(({ item }, index) => {
      size += options.size(item);
      return index > 0 && size > options.largestGroup;
    });
    const group = cut < 0 ? pending : pending.slice(0, cut);
    pending = cut < 0 ? [] : pending.slice(cut);
    return group;
  }

  return {
    add: (item) =>
      new Promise((resolve, reject) => {
        pending.push({ item, resolve, reject });
        // Starting one turn later lets calls made in the same turn share the first group too.
        running ??= Promise.resolve().then(run);
      }),
    settled: async () => {
      await running;
    },
  };
}
