import { createHmac } from 'node:crypto';
import { keyBytes } from './settings.ts';

/**
 * Headers that prove a body is ours: HMAC-SHA-256 over id, timestamp and raw body joined by dots, once for each secret so
 * that a receiver can change keys without losing a message (W-20, the open specification for webhooks).
 */
export function signedHeaders(
  id: string,
  timestampSeconds: number,
  body: Uint8Array,
  secrets: readonly string[],
): Record<string, string> {
  const signatures = secrets.map((secret) => {
    const hmac = createHmac('sha256', keyBytes(secret)).update(`${id}.${timestampSeconds}.`).update(body);
    return `v1,${hmac.digest('base64')}`;
  });
  return {
    'webhook-id': id,
    'webhook-timestamp': String(timestampSeconds),
    'webhook-signature': signatures.join(' '),
  };
}
