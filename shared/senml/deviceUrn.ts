import { fromHex, toHex } from './hex.ts';
import { oneWireCrc8 } from './oneWire.ts';

export type DeviceUrnKind = 'mac' | 'ow' | 'org' | 'os' | 'ops' | 'other';

/** A device name taken apart (RFC 9039 section 3.2). */
export interface DeviceUrn {
  readonly kind: DeviceUrnKind;
  /** The device without components, with `urn:dev` in lower case, e.g. `urn:dev:ow:28139bbb0b00001f`. */
  readonly device: string;
  /** What follows the device after `_`, e.g. `["core"]`. */
  readonly components: readonly string[];
  /** For `ow` only: whether the last byte is the CRC-8 of the others. A receiver may check it; some clones fail. */
  readonly hasValidCrc?: boolean;
}

export type DeviceUrnResult =
  | { readonly ok: true; readonly urn: DeviceUrn }
  | { readonly ok: false; readonly problem: string };

const identifier = '[A-Za-z0-9.-]+';
const enterprise = '[1-9][0-9]*';

/** Body forms of RFC 9039 section 3.2; `mac` and `ow` may not be followed by `:identifier`, the others may. */
const bodyPatterns: Readonly<Record<DeviceUrnKind, RegExp>> = {
  mac: /^mac:[0-9a-f]{16}$/,
  ow: /^ow:[0-9a-f]{16}$/,
  org: new RegExp(`^org:${enterprise}-${identifier}(:${identifier})*$`),
  os: new RegExp(`^os:${enterprise}-${identifier}(:${identifier})*$`),
  // A product may not contain a hyphen: the first hyphen after it starts the serial number.
  ops: new RegExp(`^ops:${enterprise}-[A-Za-z0-9.]+-${identifier}(:${identifier})*$`),
  other: new RegExp(`^[a-z][a-z0-9-]*:${identifier}(:${identifier})*$`),
};

const allowedByKind: Readonly<Record<DeviceUrnKind, string>> = {
  mac: 'urn:dev:mac: and 16 lower-case hex digits (EUI-64)',
  ow: 'urn:dev:ow: and 16 lower-case hex digits (family, serial, CRC)',
  org: 'urn:dev:org: enterprise number, hyphen, identifier',
  os: 'urn:dev:os: enterprise number, hyphen, serial',
  ops: 'urn:dev:ops: enterprise number, hyphen, product, hyphen, serial',
  other: 'urn:dev: kind, colon, identifier of letters, digits, dots and hyphens',
};

/** Takes a device name apart, or says what is wrong with it. Names are case sensitive apart from `urn` and `dev`. */
export function parseDeviceUrn(text: string): DeviceUrnResult {
  const folded = foldPrefix(text);
  if (!folded.startsWith('urn:dev:')) return refused(text, 'a name that starts with urn:dev:');
  const [body = '', ...components] = folded.slice('urn:dev:'.length).split('_');
  const kind = kindOf(body);
  if (!bodyPatterns[kind].test(body)) return refused(text, allowedByKind[kind]);
  const badComponent = components.find((component) => !/^[A-Za-z0-9.-]+$/.test(component));
  if (badComponent !== undefined) return refused(text, 'after each "_": letters, digits, dots and hyphens');
  return {
    ok: true,
    urn: {
      kind,
      device: `urn:dev:${body}`,
      components,
      ...(kind === 'ow' && { hasValidCrc: crcHolds(body) }),
    },
  };
}

/** Whether two device names are the same: octet by octet after folding only `urn` and `dev` (RFC 9039 section 3.2.1). */
export function isSameDeviceUrn(first: string, second: string): boolean {
  return foldPrefix(first) === foldPrefix(second);
}

/** Device name of an EUI-48 given as 12 hex digits, colons or hyphens allowed; null when it is not that. */
export function deviceUrnFromEui48(address: string): string | null {
  return fromAddress(address, [0xff, 0xfe]);
}

/** Device name of a MAC-48, which RFC 9039 widens with ff ff; the universal/local bit stays as it is. */
export function deviceUrnFromMac48(address: string): string | null {
  return fromAddress(address, [0xff, 0xff]);
}

function fromAddress(address: string, filler: readonly number[]): string | null {
  const bytes = fromHex(address.replace(/[:-]/g, ''));
  if (bytes?.length !== 6) return null;
  return `urn:dev:mac:${toHex(Uint8Array.of(...bytes.subarray(0, 3), ...filler, ...bytes.subarray(3)))}`;
}

function foldPrefix(text: string): string {
  return text.replace(/^urn:dev:/i, 'urn:dev:');
}

function kindOf(body: string): DeviceUrnKind {
  const subtype = body.slice(0, Math.max(0, body.indexOf(':')));
  return subtype !== 'other' && Object.hasOwn(bodyPatterns, subtype) ? (subtype as DeviceUrnKind) : 'other';
}

function crcHolds(body: string): boolean {
  return oneWireCrc8(fromHex(body.slice('ow:'.length))!) === 0;
}

function refused(text: string, allowed: string): DeviceUrnResult {
  return { ok: false, problem: `device name "${text}": allowed ${allowed}` };
}
