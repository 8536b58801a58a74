/**
 * UTF-8 in both directions. `TextDecoder` and `TextEncoder` are global in Node and in every browser, but belong to
 * neither the ECMAScript nor the Node type set alone, so the little we use is declared here.
 */
declare const TextDecoder: new (
  label: string,
  options: { fatal: boolean; ignoreBOM: boolean },
) => { decode(bytes: Uint8Array): string };
declare const TextEncoder: new () => { encode(text: string): Uint8Array };

// Fatal: a broken byte sequence must not become U+FFFD and pass as text. A byte order mark stays, and JSON refuses it.
const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
const encoder = new TextEncoder();

/** The text of UTF-8 bytes, or null when they are not UTF-8. */
export function textFromUtf8(bytes: Uint8Array): string | null {
  try {
    return decoder.decode(bytes);
  } catch {
    return null;
  }
}

/** The UTF-8 bytes of a text. */
export function utf8FromText(text: string): Uint8Array {
  return encoder.encode(text);
}
