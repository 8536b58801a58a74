/**
 * The write path as a process of its own, to be killed: `node writePathProcess.ts <folder>`. Prints one line of JSON
 * with the port of its broker once it takes connections.
 */
import { startWritePath } from './writePath.ts';

const folder = process.argv[2];
if (folder === undefined) throw new Error('usage: writePathProcess.ts <folder>');
const { broker } = await startWritePath({ folder });
console.log(JSON.stringify({ port: broker.port }));
