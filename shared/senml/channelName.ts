import { parseDeviceUrn } from './deviceUrn.ts';

export interface ChannelParts {
  /** Device name, e.g. `urn:dev:ow:28139bbb0b00001f`. */
  readonly probe: string;
  /** What the probe calls this series, e.g. `core`. */
  readonly channel: string;
}

/** A channel has the characters SenML allows in a name. */
const channelPattern = /^[A-Za-z0-9\-:./_]+$/;

/**
 * Probe and channel of a full SenML name, or null when it is not of that form.
 *
 * Our form is `urn:dev:...` + `_` + channel, which is a device name with a component (RFC 9039). The form RFC 8428's
 * examples use, joined by `:`, is accepted too: for `mac` and `ow` a colon can only end the device; for the other kinds
 * a device may itself contain colons, so only the last colon is taken, and only when there is no `_`.
 */
export function splitChannelName(fullName: string): ChannelParts | null {
  return splitAt(fullName, fullName.indexOf('_')) ?? splitAtColon(fullName);
}

function splitAtColon(fullName: string): ChannelParts | null {
  const fixedLength = /^urn:dev:(?:mac|ow):[0-9a-f]{16}(?=:)/i.exec(fullName);
  if (fixedLength) return splitAt(fullName, fixedLength[0].length);
  return fullName.includes('_') ? null : splitAt(fullName, fullName.lastIndexOf(':'));
}

function splitAt(fullName: string, position: number): ChannelParts | null {
  if (position < 0) return null;
  const device = parseDeviceUrn(fullName.slice(0, position));
  const channel = fullName.slice(position + 1);
  if (!device.ok || device.urn.components.length > 0 || !channelPattern.test(channel)) return null;
  return { probe: device.urn.device, channel };
}

/**
 * Whether a full SenML name belongs to a probe: the probe's own name, then `_` or `:`, then a channel. The separator
 * matters: without it probe 12 would own what probe 123 sends. The name in a payload is only a claim by the device.
 */
export function probeOwnsName(probeUrn: string, name: string): boolean {
  const separator = name[probeUrn.length];
  return (
    probeUrn !== '' &&
    name.startsWith(probeUrn) &&
    (separator === '_' || separator === ':') &&
    channelPattern.test(name.slice(probeUrn.length + 1))
  );
}
