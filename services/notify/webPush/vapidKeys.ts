import { readFile, writeFile } from 'node:fs/promises';
import webPush from 'web-push';
import { z } from 'zod';
import type { Records } from '../../records/port.ts';

const keysSchema = z.object({ publicKey: z.base64url(), privateKey: z.base64url() });

/** The pair that signs for this yard (RFC 8292); browsers bind their subscription to the public one. */
export type VapidKeys = z.infer<typeof keysSchema>;

/**
 * Reads the yard's signing keys, or makes them and keeps them for this account's eyes only. They must outlive the
 * program: with new keys every subscription is lost.
 * @throws Error naming the file when it is there but holds something else.
 */
export async function openVapidKeys(file: string): Promise<VapidKeys> {
  const made = webPush.generateVAPIDKeys();
  try {
    await writeFile(file, `${JSON.stringify(made)}\n`, { mode: 0o600, flag: 'wx' });
    return made;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
  }
  const found = keysSchema.safeParse(parsed(await readFile(file, 'utf8')));
  if (!found.success)
    throw new Error(`${file}: allowed a pair of signing keys; move it away to have new ones made`);
  return found.data;
}

/** Name of the mark that keeps the keys where several processes send. */
const keysMark = 'notify:push-keys';

/**
 * The keys where several processes send over one set of records: kept there, so that all sign as one. A file in the data
 * folder, from the time when one process did everything, is taken over.
 */
export async function sharedVapidKeys(
  marks: Pick<Records['marks'], 'setOnce'>,
  file: string,
): Promise<VapidKeys> {
  const own = keysSchema.safeParse(parsed(await readFile(file, 'utf8').catch(() => '')));
  const { publicKey, privateKey } = own.success ? own.data : webPush.generateVAPIDKeys();
  return keysSchema.parse(parsed(await marks.setOnce(keysMark, JSON.stringify({ publicKey, privateKey }))));
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
