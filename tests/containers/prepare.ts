/**
 * Makes the local stand-in images before the suites need them: `node tests/containers/prepare.ts`. With the word `remove`
 * it throws away every image the suites made, and the folder of an engine of our own.
 */
import { rmSync } from 'node:fs';
import { engineFolder, findEngine } from './rig/engine.ts';
import { ensureImages, imagesMissing, removeImages } from './rig/images.ts';

const missing = imagesMissing();
const found = missing === null ? await findEngine() : { missing };
if ('missing' in found) {
  console.error(`No images are made: ${found.missing}`);
  process.exit(1);
}
const { engine } = found;
if (process.argv[2] === 'remove') {
  await removeImages(engine);
  await engine.release();
  rmSync(engineFolder, { recursive: true, force: true });
} else {
  for (const [variable, name] of Object.entries(await ensureImages(engine)))
    console.log(`${variable}=${name}`);
  await engine.release();
}
