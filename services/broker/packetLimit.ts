import type { Client } from 'aedes';

/** Before sign-in a packet need only hold a name and a secret. */
const mostBytesBeforeSignIn = 65_536;

/** What of the library's packet parser the limit hangs on. */
interface PacketParser {
  readonly packet: { readonly length: number };
  _parseLength(): boolean;
  emit(event: 'error', error: Error): void;
}

/** A packet announced itself larger than it may be. */
export class PacketTooLarge extends Error {
  override readonly name = 'PacketTooLarge';
  readonly bytes: number;
  constructor(bytes: number, mostBytes: number) {
    super(`packet of ${bytes} bytes; allowed: at most ${mostBytes} bytes`);
    this.bytes = bytes;
  }
}

/**
 * Refuses a packet by the length in its header, before its body is gathered. The library would gather up to 256 MB for
 * anybody who connects, and has no option against it, so its parser is wrapped at the one step where the length is known;
 * a test with a real socket fails should a new release name that step differently.
 */
export function limitPacketSize(client: Client, mostBytes: number): void {
  const parser = (client as unknown as { _parser: PacketParser })._parser;
  const parseLength = parser._parseLength.bind(parser);
  parser._parseLength = () => {
    if (!parseLength()) return false;
    const allowed = client.connected ? mostBytes : mostBytesBeforeSignIn;
    if (parser.packet.length <= allowed) return true;
    parser.emit('error', new PacketTooLarge(parser.packet.length, allowed));
    return false;
  };
}
