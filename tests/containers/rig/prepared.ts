import { composeMissing } from './compose.ts';
import { type Engine, findEngine } from './engine.ts';
import { ensureImages, type ImageNames, imagesMissing } from './images.ts';
import { say } from './say.ts';

/** An engine with every image, or in plain words why this machine has none. */
export type Prepared =
  | { readonly engine: Engine; readonly images: ImageNames }
  | { readonly missing: string };

/** What every suite here begins with. */
export async function prepare(): Promise<Prepared> {
  const missing = imagesMissing() ?? (await composeMissing());
  if (missing !== null) return { missing };
  const found = await findEngine();
  if ('missing' in found) return found;
  try {
    return { engine: found.engine, images: await ensureImages(found.engine) };
  } catch (error) {
    await found.engine.release();
    say(`the stand-in images could not be made: ${(error as Error).message}`);
    return { missing: `the stand-in images could not be made: ${(error as Error).message.slice(0, 300)}` };
  }
}
