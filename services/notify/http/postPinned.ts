import { lookup } from 'node:dns/promises';
import { request as httpRequest, type IncomingHttpHeaders, type RequestOptions } from 'node:http';
import { request as httpsRequest } from 'node:https';
import type { LookupFunction } from 'node:net';
import { isPublicAddress } from './publicAddress.ts';

/** An address given by a person or a browser that we do not call; the message says why, in words for people. */
export class AddressRefused extends Error {
  override readonly name = 'AddressRefused';
}

export interface PinnedPost {
  readonly url: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: Uint8Array;
  readonly timeoutMs: number;
  /** True lets it call this machine and this network, and over plain HTTP. */
  readonly allowPrivate: boolean;
  readonly signal: AbortSignal;
  /** Who turns a name into addresses; by default the machine's resolver. */
  readonly resolve?: (name: string) => Promise<Resolved[]>;
}

export interface Resolved {
  readonly address: string;
  readonly family: number;
}

export interface PinnedAnswer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
}

/**
 * Posts to an address that somebody else chose. The name is resolved once, every address it stands for is looked at,
 * and the call goes to those very addresses: a name that changes its mind in between leads nowhere else. No redirect is
 * followed; of the answer only status and headers are read.
 * @throws AddressRefused for an address we do not call; TimeoutError, AbortError or a socket error when nothing came.
 */
export async function postPinned(post: PinnedPost): Promise<PinnedAnswer> {
  const url = checkedUrl(post);
  const signal = AbortSignal.any([post.signal, AbortSignal.timeout(post.timeoutMs)]);
  const addresses = await resolved(url, post, signal);
  return exchange(url, post, {
    method: 'POST',
    headers: { ...post.headers, 'content-length': post.body.length },
    // A kept connection could belong to an earlier resolution of the name.
    agent: false,
    lookup: pinnedTo(addresses),
    signal,
  });
}

function checkedUrl({ url: text, allowPrivate }: PinnedPost): URL {
  const url = URL.parse(text);
  if (url === null) throw new AddressRefused('its address is not a web address');
  if (url.protocol !== 'https:' && !(allowPrivate && url.protocol === 'http:')) {
    throw new AddressRefused(`its address starts with "${url.protocol}"; allowed: https:`);
  }
  if (url.username !== '' || url.password !== '')
    throw new AddressRefused('its address holds a user name or password; allowed: none');
  return url;
}

async function resolved(url: URL, post: PinnedPost, signal: AbortSignal): Promise<Resolved[]> {
  const resolve = post.resolve ?? ((wanted: string) => lookup(wanted, { all: true }));
  const name = url.hostname.replace(/^\[(.*)\]$/, '$1');
  // A resolver has its own, long patience; ours ends with the time-out.
  const addresses = await Promise.race([resolve(name), rejection(signal)]);
  if (!post.allowPrivate && !addresses.every(({ address }) => isPublicAddress(address))) {
    throw new AddressRefused(`${name} is inside this network; allowed: the public internet`);
  }
  return addresses;
}

function rejection(signal: AbortSignal): Promise<never> {
  return new Promise((_resolve, reject) => {
    if (signal.aborted) reject(signal.reason);
    signal.addEventListener('abort', () => reject(signal.reason), { once: true });
  });
}

function pinnedTo(addresses: readonly Resolved[]): LookupFunction {
  return (_name, options, done) => {
    if (options.all === true) done(null, [...addresses]);
    else done(null, addresses[0]!.address, addresses[0]!.family);
  };
}

function exchange(url: URL, { body, signal }: PinnedPost, options: RequestOptions): Promise<PinnedAnswer> {
  return new Promise((resolve, reject) => {
    const open = url.protocol === 'https:' ? httpsRequest : httpRequest;
    const call = open(url, options, (answer) => {
      resolve({ status: answer.statusCode ?? 0, headers: answer.headers });
      answer.destroy();
    });
    call.on('error', (error) => reject(signal.aborted ? signal.reason : error));
    call.end(body);
  });
}
