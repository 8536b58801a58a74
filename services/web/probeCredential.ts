import { randomBytes } from 'node:crypto';
import type { ProbeCredential } from '../../shared/api/types.ts';
import type { WebConfig } from './house.ts';

/**
 * A device name for a probe that brings none: a random EUI-64 with the "locally administered" bit set, so that it can
 * never be some maker's number (RFC 9039 `mac` names).
 */
export function madeUpProbeId(): string {
  const bytes = randomBytes(8);
  bytes[0] = (bytes[0]! & 0xfc) | 0x02;
  return `urn:dev:mac:${bytes.toString('hex')}`;
}

export function probeTopic(yardId: string, probeId: string): string {
  return `tilth/${yardId}/${probeId}/readings`;
}

/** What to put into the probe, with a stock command-line publish that works as it stands from a POSIX shell. */
export function mqttFacts(
  mqtt: WebConfig['mqtt'],
  yardId: string,
  probeId: string,
  secret: string,
): ProbeCredential['mqtt'] {
  const topic = probeTopic(yardId, probeId);
  const pack = `[{"bn":"${probeId}_","n":"core","u":"Cel","v":54.2}]`;
  const exampleCommand = [
    `mosquitto_pub -h ${mqtt.host} -p ${mqtt.port}${mqtt.tls ? ' --tls-use-os-certs' : ''} -q 1`,
    `-i ${probeId} -u ${probeId} -P ${secret}`,
    `-t ${topic}`,
    `-m '${pack}'`,
  ].join(' ');
  return { ...mqtt, user: probeId, topic, exampleCommand };
}
