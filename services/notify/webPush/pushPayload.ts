import type { Message } from '../../records/port.ts';

/** Longest plaintext of one push (RFC 8291: 4096 bytes less header, padding and tag). */
const payloadLimitBytes = 3993;

/** What the browser's service worker gets, as JSON: the text and what it is about; a text too long loses its end. */
export function pushPayload(message: Message): string {
  const { id, priority, yardId, pileId, alarmId, createdMs } = message;
  let { text } = message;
  for (;;) {
    const payload = JSON.stringify({ id, text, priority, yardId, pileId, alarmId, createdMs });
    if (Buffer.byteLength(payload) <= payloadLimitBytes) return payload;
    text = [...text].slice(0, Math.floor([...text].length * 0.9)).join('');
  }
}
