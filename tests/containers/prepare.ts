/** Makes the local stand-in images before the suites need them: `node tests/containers/prepare.ts`. */
import { findEngine } from './rig/engine.ts';
import { ensureImages, imagesMissing } from './rig/images.ts';

const missing = imagesMissing();
const found = missing === null ? await findEngine() : { missing };
if ('missing' in found) {
  console.error(`No images are made: ${found.missing}`);
  process.exit(1);
}
for (const [variable, name] of Object.entries(await ensureImages(found.engine)))
  console.log(`${variable}=${name}`);
await found.engine.release();
