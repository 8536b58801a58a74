/** Told how far long work has come; `share` is 0..1. */
export type OnProgress = (what: string, share: number) => void;

const quietSeconds = 5;

/** Shows progress on one line of a terminal; where lines are kept (a file, a service's log), one every few seconds. */
export function showProgress(out: NodeJS.WriteStream): OnProgress {
  let lastAt = 0;
  return (what, share) => {
    const nowAt = performance.now();
    const isDone = share >= 1;
    const waitMs = out.isTTY ? 100 : quietSeconds * 1000;
    if (!isDone && nowAt - lastAt < waitMs) return;
    lastAt = nowAt;
    const text = `  ${what}: ${isDone ? 'done' : `${Math.floor(share * 100)} %`}`;
    if (out.isTTY) out.write(`\r\u001b[K${text}${isDone ? '\n' : ''}`);
    else out.write(`${text}\n`);
  };
}
