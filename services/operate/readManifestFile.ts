import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { z } from 'zod';

/**
 * The manifest of a folder that a command wrote.
 * @param what "backup" or "export", for the error's words
 * @throws Error when the folder holds none, or one this program cannot read; it names the file and the field
 */
export async function readManifestFile<T>(
  folder: string,
  file: string,
  what: string,
  schema: z.ZodType<T>,
): Promise<T> {
  const path = join(folder, file);
  const text = await readFile(path, 'utf8').catch(() => null);
  if (text === null) throw new Error(`${folder} holds no ${what}: there is no ${file} in it.`);
  const parsed = schema.safeParse(parse(text));
  if (parsed.success) return parsed.data;
  const [issue] = parsed.error.issues;
  throw new Error(`${path} cannot be read: ${issue?.path.join('.') || 'the file'}: ${issue?.message}`);
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
