import type { ChildProcess } from 'node:child_process';

/** Gathers all a child prints; the function given back tells what there is so far. */
export function gatherOutput(child: ChildProcess): () => string {
  let output = '';
  const gather = (piece: Buffer) => {
    output += piece.toString();
  };
  child.stdout!.on('data', gather);
  child.stderr!.on('data', gather);
  return () => output;
}
