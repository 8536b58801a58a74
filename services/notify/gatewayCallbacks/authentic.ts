import { createHash, createHmac, timingSafeEqual } from 'node:crypto';
import type { CallbackRequest } from '../port.ts';
import type { GatewayCallbacks } from './settings.ts';

type Check = GatewayCallbacks['check'];

/** Whether a call comes from somebody who knows the secret, and not too long ago. Takes the same time whatever differs. */
export function isAuthentic(request: CallbackRequest, check: Check, nowMs: number): boolean {
  return check.kind === 'token' ? hasToken(request, check) : hasSignature(request, check, nowMs);
}

function hasToken(request: CallbackRequest, check: Extract<Check, { kind: 'token' }>): boolean {
  const given =
    check.where === 'header'
      ? request.headers[check.name.toLowerCase()]
      : new URL(request.url).searchParams.get(check.name);
  return isSame(given ?? '', check.secret);
}

function hasSignature(
  request: CallbackRequest,
  check: Extract<Check, { kind: 'signature' }>,
  nowMs: number,
): boolean {
  const timestamp =
    check.timestampHeader === null ? '' : request.headers[check.timestampHeader.toLowerCase()];
  if (check.timestampHeader !== null && !isRecent(timestamp, check.toleranceSeconds, nowMs)) return false;
  const hmac = createHmac(check.hash, check.secret);
  for (const piece of check.signed.split(/(\{\{(?:body|url|timestamp)\}\})/)) {
    if (piece === '{{body}}') hmac.update(request.body);
    else if (piece === '{{url}}') hmac.update(request.url);
    else hmac.update(piece === '{{timestamp}}' ? (timestamp ?? '') : piece);
  }
  return isSame(
    request.headers[check.header.toLowerCase()] ?? '',
    check.prefix + hmac.digest(check.encoding),
  );
}

function isRecent(timestamp: string | undefined, toleranceSeconds: number, nowMs: number): boolean {
  if (timestamp === undefined || !/^\d{1,12}$/.test(timestamp)) return false;
  return Math.abs(nowMs - Number(timestamp) * 1000) <= toleranceSeconds * 1000;
}

/** Compared as hashes, so that neither the length nor the first wrong character shows in the time it takes. */
function isSame(given: string, wanted: string): boolean {
  const digest = (text: string) => createHash('sha256').update(text).digest();
  return timingSafeEqual(digest(given), digest(wanted));
}
