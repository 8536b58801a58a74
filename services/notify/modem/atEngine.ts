import type { Duplex } from 'node:stream';
import { AtLost, refusalOf } from './atErrors.ts';
import { createAtLines } from './atLines.ts';
import { hasDataLine, isUnsolicited, type Unsolicited } from './unsolicited.ts';

const controlZ = '\x1a';
const abortText = '\x1b';

export interface AtEngine {
  /** Sends a command and resolves to the lines of its answer. Throws AtRefused or AtLost. */
  command(text: string, waitMs: number): Promise<string[]>;
  /** Sends a command, waits for the prompt, hands over the text. Throws AtRefused or AtLost. */
  commandWithText(text: string, payload: string, promptMs: number, finalMs: number): Promise<string[]>;
  /** Ends whatever the modem may be in the middle of; what it says meanwhile is dropped. */
  settle(quietMs: number): Promise<void>;
  close(): void;
}

export interface AtEngineEvents {
  onUnsolicited(said: Unsolicited): void;
  /** The line to the modem is gone; said once, not after `close`. */
  onGone(): void;
}

interface Asked {
  readonly command: string;
  readonly payload: string | null;
  readonly finalMs: number;
  readonly lines: string[];
  isPayloadSent: boolean;
  resolve(lines: string[]): void;
  reject(error: Error): void;
}

/**
 * Speaks with a modem over any stream of bytes: one command at a time, the next one only after the final result of the
 * one before (27.005 modems lose what comes sooner). Lines said unasked in between are told apart and passed on.
 * After AtLost the engine is of no use: close it and open the line anew.
 */
export function createAtEngine(stream: Duplex, events: AtEngineEvents): AtEngine {
  let asked: Asked | null = null;
  let header: string | null = null;
  let timer: NodeJS.Timeout | undefined;
  let turn: Promise<unknown> = Promise.resolve();
  let isOpen = true;
  const lines = createAtLines(onLine);

  function onLine(line: string): void {
    if (header !== null) {
      const said = { line: header, data: line };
      header = null;
      events.onUnsolicited(said);
    } else if (hasDataLine(line)) header = line;
    else if (isUnsolicited(line)) events.onUnsolicited({ line, data: null });
    else if (asked !== null) onAnswer(asked, line);
  }

  function onAnswer(current: Asked, line: string): void {
    const refusal = refusalOf(line);
    // Something said unasked ended the line of the prompt.
    if (line === '>' && awaitsPrompt(current)) handOver(current);
    else if (refusal !== null) finish(() => current.reject(refusal));
    else if (line === 'OK') onOk(current);
    else if (!isEcho(current, line)) current.lines.push(line);
  }

  function onOk(current: Asked): void {
    finish(() =>
      awaitsPrompt(current)
        ? current.reject(new AtLost('modem did not ask for the text'))
        : current.resolve(current.lines),
    );
  }

  function onData(bytes: Buffer): void {
    lines.take(bytes.toString('latin1'));
    if (asked !== null && awaitsPrompt(asked) && lines.takePrompt()) handOver(asked);
  }

  function handOver(current: Asked): void {
    current.isPayloadSent = true;
    stream.write(Buffer.from(current.payload + controlZ, 'latin1'));
    waitFor(current.finalMs, 'the network gave no answer');
  }

  function waitFor(waitMs: number, detail: string): void {
    clearTimeout(timer);
    timer = setTimeout(() => {
      // Takes the modem out of the prompt, should it be there without having said so.
      stream.write(abortText);
      fail(detail);
    }, waitMs);
  }

  function finish(settleAsked: () => void): void {
    clearTimeout(timer);
    asked = null;
    settleAsked();
  }

  function fail(detail: string): void {
    const current = asked;
    if (current !== null) finish(() => current.reject(new AtLost(detail, current.isPayloadSent)));
  }

  function onGone(): void {
    if (!isOpen) return;
    isOpen = false;
    fail('modem went away');
    events.onGone();
  }

  function ask(command: string, payload: string | null, waitMs: number, finalMs: number): Promise<string[]> {
    const answer = turn.then(
      () =>
        new Promise<string[]>((resolve, reject) => {
          if (!isOpen) return reject(new AtLost('modem went away'));
          asked = { command, payload, finalMs, lines: [], isPayloadSent: false, resolve, reject };
          stream.write(`${command}\r`, 'latin1');
          waitFor(waitMs, payload === null ? 'modem does not answer' : 'modem did not ask for the text');
        }),
    );
    turn = answer.catch(() => {});
    return answer;
  }

  stream.on('data', onData);
  stream.on('error', onGone);
  stream.on('close', onGone);
  stream.on('end', onGone);
  return {
    command: (text, waitMs) => ask(text, null, waitMs, waitMs),
    commandWithText: (text, payload, promptMs, finalMs) => ask(text, payload, promptMs, finalMs),
    async settle(quietMs) {
      stream.write(`${abortText}\r`);
      await new Promise((resolve) => setTimeout(resolve, quietMs));
    },
    close() {
      isOpen = false;
      fail('the line to the modem was closed');
      stream.destroy();
    },
  };
}

function awaitsPrompt({ payload, isPayloadSent }: Asked): boolean {
  return payload !== null && !isPayloadSent;
}

/** A modem repeats what it is sent until it is told not to. */
function isEcho({ command, payload }: Asked, line: string): boolean {
  const said = line.replace(/^> ?/, '').replaceAll(controlZ, '');
  return line === command || (payload !== null && said === payload.trim());
}
