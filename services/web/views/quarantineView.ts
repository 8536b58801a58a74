import type { QuarantineItemView } from '../../../shared/api/types.ts';
import type { QuarantineItem } from '../../records/port.ts';

/** Somebody's bytes made safe to show: hexadecimal always, text only when they are readable text. */
export function quarantineView(item: QuarantineItem): QuarantineItemView {
  return {
    id: item.id,
    receivedMs: item.receivedMs,
    topic: escaped(item.topic),
    probe: item.probe,
    reason: item.reason,
    payloadBytes: item.payloadBytes,
    payloadHex: Buffer.from(item.payloadStart).toString('hex'),
    payloadText: readableText(item.payloadStart, item.payloadBytes),
  };
}

function readableText(start: Uint8Array, payloadBytes: number): string | null {
  try {
    // Cut short, the last character may be half there: that is no reason to call the text unreadable.
    const decoder = new TextDecoder('utf-8', { fatal: true });
    const text = decoder.decode(start, { stream: start.length < payloadBytes });
    const odd = [...text].filter((character) => isUnprintable(character)).length;
    return text !== '' && odd <= text.length / 10 ? escaped(text) : null;
  } catch {
    return null;
  }
}

/** Control, direction-changing and other invisible characters could make a payload look like what it is not. */
function escaped(text: string): string {
  return text.replace(/[\p{Cc}\p{Cf}\p{Co}\p{Cn}\u2028\u2029]/gu, (character) =>
    character === '\n' ? '\n' : `\\u{${character.codePointAt(0)!.toString(16)}}`,
  );
}

function isUnprintable(character: string): boolean {
  return (
    character !== '\n' && character !== '\r' && character !== '\t' && /[\p{Cc}\p{Cn}\p{Co}]/u.test(character)
  );
}
