/** Makes lines of what a modem sends, piece by piece, and tells when it asks for text. */
export interface AtLines {
  /** Takes bytes as Latin-1 text; calls back for each line that is not empty. */
  take(text: string): void;
  /** Whether what came last is the prompt (CR LF `>` space, 27.005 section 3.5.1); takes it away when it is. */
  takePrompt(): boolean;
}

/** Longest unfinished line kept; more than any modem sends, so that noise on the wire cannot fill the memory. */
const lineLimit = 4096;

export function createAtLines(onLine: (line: string) => void): AtLines {
  let rest = '';
  return {
    take(text) {
      const lines = (rest + text).split(/[\r\n\0]+/);
      rest = lines.pop()!.slice(-lineLimit);
      for (const line of lines) if (line.trim() !== '') onLine(line.trim());
    },
    takePrompt() {
      if (!/^ *> ?$/.test(rest)) return false;
      rest = '';
      return true;
    },
  };
}
