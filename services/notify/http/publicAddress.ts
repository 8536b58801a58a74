import { BlockList, isIP } from 'node:net';

/**
 * Ranges that are not the public internet: this machine, this network, links, carriers, tests, tunnels that may carry
 * any of these, multicast. After the IANA special-purpose address registries (RFC 6890 and later); the list is from
 * memory (unconfirmed).
 */
const specialRanges: readonly (readonly [string, number])[] = [
  ['0.0.0.0', 8],
  ['10.0.0.0', 8],
  ['100.64.0.0', 10],
  ['127.0.0.0', 8],
  ['169.254.0.0', 16],
  ['172.16.0.0', 12],
  ['192.0.0.0', 24],
  ['192.0.2.0', 24],
  ['192.88.99.0', 24],
  ['192.168.0.0', 16],
  ['198.18.0.0', 15],
  ['198.51.100.0', 24],
  ['203.0.113.0', 24],
  ['224.0.0.0', 3],
];

/** Of IPv6 only what is handed out for the public internet may be called, less what tunnels IPv4 and what is for examples. */
const publicIpv6 = ['2000::', 3] as const;
const specialIpv6: readonly (readonly [string, number])[] = [
  ['2001::', 23],
  ['2001:db8::', 32],
  ['2002::', 16],
  ['3fff::', 20],
];

const specialV4 = new BlockList();
for (const [net, prefix] of specialRanges) specialV4.addSubnet(net, prefix, 'ipv4');
const specialV6 = new BlockList();
for (const [net, prefix] of specialIpv6) specialV6.addSubnet(net, prefix, 'ipv6');
const globalV6 = new BlockList();
globalV6.addSubnet(...publicIpv6, 'ipv6');

/** Whether an IP address, as text, belongs to the public internet. */
export function isPublicAddress(address: string): boolean {
  if (isIP(address) === 4) return !specialV4.check(address, 'ipv4');
  return isIP(address) === 6 && globalV6.check(address, 'ipv6') && !specialV6.check(address, 'ipv6');
}
