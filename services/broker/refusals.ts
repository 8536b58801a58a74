import type { RefusedSignIn } from './port.ts';

/** Names a stranger may make us remember. */
const mostNames = 100;
const longestName = 120;

/** Remembers the last refused sign-in under each name, so that whoever sets up a probe sees that it knocked. */
export interface Refusals {
  note(userName: string, reason: string, atMs: number): void;
  /** Newest first. */
  list(): RefusedSignIn[];
}

export function createRefusals(): Refusals {
  const last = new Map<string, RefusedSignIn>();
  return {
    note(userName, reason, atMs) {
      const name = userName.slice(0, longestName);
      const count = (last.get(name)?.count ?? 0) + 1;
      last.delete(name);
      last.set(name, { name, reason, atMs, count });
      const [oldest] = last.keys();
      if (last.size > mostNames && oldest !== undefined) last.delete(oldest);
    },
    list: () => [...last.values()].reverse(),
  };
}
