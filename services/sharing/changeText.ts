import { z } from 'zod';
import type { Change } from './port.ts';

/** PostgreSQL refuses notifications of 8000 bytes and more. */
const mostBytes = 7_500;
/** Changes of screens in one part: each is some 60 bytes. */
const screensAtOnce = 80;

const yardId = z.string();
const liveChange = z.union([
  z.object({ kind: z.literal('pile'), yardId, pileId: z.string() }),
  z.object({ kind: z.literal('alarm'), yardId, alarmId: z.string() }),
  z.object({ kind: z.literal('probe'), yardId, probeId: z.string() }),
  z.object({ kind: z.enum(['yard', 'people', 'messages', 'quarantine']), yardId }),
  z.object({ kind: z.literal('messages'), yardId: z.null() }),
]);

const changeSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.enum(['readings-stored', 'messages-written', 'deeds', 'missed']) }),
  z.object({ kind: z.literal('screens'), changes: z.array(liveChange) }),
  z.object({ kind: z.literal('facts'), pileId: z.string().optional(), probeId: z.string().optional() }),
]);

const textSchema = z.object({ from: z.string(), changes: z.array(changeSchema) });

/** Changes of one process as texts that fit a notification, each change once. */
export function textsOf(from: string, changes: readonly Change[]): string[] {
  const texts: string[] = [];
  let gathered: Change[] = [];
  const write = () => {
    if (gathered.length > 0) texts.push(JSON.stringify({ from, changes: gathered }));
    gathered = [];
  };
  for (const change of joined(changes)) {
    const size = Buffer.byteLength(JSON.stringify({ from, changes: [...gathered, change] }));
    if (size > mostBytes) write();
    gathered.push(change);
  }
  write();
  return texts;
}

/** Who told it and what; null for a text that is not ours, e.g. of another version. */
export function readText(
  text: string,
): { readonly from: string; readonly changes: readonly Change[] } | null {
  try {
    return textSchema.parse(JSON.parse(text)) as { from: string; changes: Change[] };
  } catch {
    return null;
  }
}

/** The same change told twice is told once; what screens should look at is one list, in parts. */
function joined(changes: readonly Change[]): Change[] {
  const once = new Map<string, Change>();
  const screens = new Map<string, Extract<Change, { kind: 'screens' }>['changes'][number]>();
  for (const change of changes) {
    if (change.kind !== 'screens') once.set(JSON.stringify(change), change);
    else for (const one of change.changes) screens.set(JSON.stringify(one), one);
  }
  const all = [...screens.values()];
  for (let at = 0; at < all.length; at += screensAtOnce) {
    const part = { kind: 'screens', changes: all.slice(at, at + screensAtOnce) } as const;
    once.set(`screens ${at}`, part);
  }
  return [...once.values()];
}
