import type { AtEngine } from './atEngine.ts';
import { AtLost } from './atErrors.ts';
import type { OutgoingPart } from './mode.ts';
import type { ModemSettings } from './settings.ts';

/**
 * Hands over the parts that are not out yet and adds the network's number of each to `done`. False when the time was up
 * with parts left.
 */
export async function sendParts(
  engine: AtEngine,
  parts: readonly OutgoingPart[],
  done: number[],
  settings: ModemSettings,
  endMs: number,
): Promise<boolean> {
  for (const part of parts.slice(done.length)) {
    if (performance.now() > endMs) return false;
    for (const command of part.before) await engine.command(command, settings.answerSeconds * 1000);
    const lines = await engine.commandWithText(
      part.command,
      part.payload,
      settings.promptSeconds * 1000,
      settings.sendSeconds * 1000,
    );
    done.push(networkNumber(lines));
  }
  return true;
}

function networkNumber(lines: readonly string[]): number {
  const found = lines.map((line) => /^\+CMGS: ?(\d+)/.exec(line)?.[1]).find((number) => number !== undefined);
  // An OK that belongs to something else: our turns and the modem's no longer match.
  if (found === undefined) throw new AtLost('modem said OK without taking the text', true);
  return Number(found);
}
