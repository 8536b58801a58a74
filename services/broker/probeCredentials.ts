import { createHash, timingSafeEqual } from 'node:crypto';
import type { ProbeStore } from '../records/port.ts';
import type { ProbeCredentials } from './port.ts';

/**
 * What is stored of a probe's secret: SHA-256 in hex. A fast hash is enough because secrets are random with 128 bits or
 * more: there is nothing to guess; only passwords that people choose need a slow one.
 */
export function hashProbeSecret(secret: string): string {
  return createHash('sha256').update(secret, 'utf8').digest('hex');
}

/** Compared with when a probe is unknown, so that this takes as long as a wrong secret. No known text hashes to it. */
const nobodysHash = '0'.repeat(64);

/** Credentials as the records have them. Revoked and unknown probes are refused just like a wrong secret. */
export function probeCredentials(probes: Pick<ProbeStore, 'get' | 'secretHash'>): ProbeCredentials {
  return {
    async check(probeId, secret) {
      const [probe, stored] = await Promise.all([probes.get(probeId), probes.secretHash(probeId)]);
      const isRight = isSameHash(hashProbeSecret(secret), stored ?? nobodysHash);
      if (!isRight || probe === null || probe.revokedMs !== null) return null;
      return { probeId: probe.id, yardId: probe.yardId };
    },
    async isInService(probeId) {
      const probe = await probes.get(probeId);
      return probe !== null && probe.revokedMs === null;
    },
  };
}

function isSameHash(one: string, other: string): boolean {
  const [first, second] = [Buffer.from(one, 'hex'), Buffer.from(other, 'hex')];
  return first.length === second.length && timingSafeEqual(first, second);
}
