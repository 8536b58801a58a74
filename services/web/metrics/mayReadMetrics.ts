import { createHash, timingSafeEqual } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';
import { BlockList } from 'node:net';

const loopback = new BlockList();
loopback.addSubnet('127.0.0.0', 8, 'ipv4');
loopback.addAddress('::1', 'ipv6');

/** A reverse proxy on this machine sets one of these for its callers, who then are not on this machine. */
const proxyHeaders = ['x-forwarded-for', 'x-forwarded-host', 'x-real-ip', 'forwarded', 'via'];

export interface MetricsAsker {
  /** The other end of the socket itself, not what a header claims. */
  readonly remoteAddress: string | undefined;
  readonly headers: IncomingHttpHeaders;
}

/** Whether someone may read the metrics: a program on this machine, or who shows the configured token. */
export function mayReadMetrics({ remoteAddress, headers }: MetricsAsker, token: string | null): boolean {
  const isProxied = proxyHeaders.some((name) => headers[name] !== undefined);
  if (!isProxied && remoteAddress !== undefined && isLoopback(remoteAddress)) return true;
  const shown = /^Bearer +(\S+)$/i.exec(headers.authorization ?? '')?.[1];
  return token !== null && shown !== undefined && isSame(shown, token);
}

function isLoopback(address: string): boolean {
  const plain = address.replace(/^::ffff:/i, '');
  return loopback.check(plain, plain.includes(':') ? 'ipv6' : 'ipv4');
}

/** Over hashes, so that neither time nor an error tells the length. */
function isSame(one: string, other: string): boolean {
  const hash = (text: string) => createHash('sha256').update(text).digest();
  return timingSafeEqual(hash(one), hash(other));
}
