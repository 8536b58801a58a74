import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { open, stat } from 'node:fs/promises';
import { z } from 'zod';

/** A file as a manifest names it, so that a damaged or missing one is found before it is used. */
export const fileSumSchema = z.strictObject({
  name: z.string().regex(/^[\w.-]+(\/[\w.-]+)*$/),
  bytes: z.int().min(0),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
});
export type FileSum = z.infer<typeof fileSumSchema>;

/** Reads a file once for its size and sum. */
export async function sumOf(path: string, name: string): Promise<FileSum> {
  const hash = createHash('sha256');
  let bytes = 0;
  for await (const piece of createReadStream(path)) {
    hash.update(piece);
    bytes += piece.length;
  }
  return { name, bytes, sha256: hash.digest('hex') };
}

/** Why a file is not the one its manifest names; null when it is. */
export async function sumProblem(path: string, { name, bytes, sha256 }: FileSum): Promise<string | null> {
  const found = await stat(path).catch(() => null);
  if (found === null) return `${name} is missing`;
  if (found.size !== bytes) return `${name} has ${found.size} bytes; ${bytes} were written`;
  const { sha256: now } = await sumOf(path, name);
  return now === sha256 ? null : `${name} was changed or damaged since it was written (its sum differs)`;
}

/** Makes sure that a file is on the disk, readable by this account only. */
export async function syncToDisk(path: string): Promise<void> {
  const handle = await open(path, 'r+');
  try {
    await handle.chmod(0o600);
    await handle.sync();
  } finally {
    await handle.close();
  }
}
