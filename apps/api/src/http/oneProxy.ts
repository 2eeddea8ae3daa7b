// Which X-Forwarded-For is believed: what the one proxy before the service wrote, where that proxy is in a private network (RFC 1918, RFC 4193).
import { BlockList, isIPv6 } from 'node:net';

const near = new BlockList();
for (const [net, prefix] of [
  ['127.0.0.0', 8],
  ['10.0.0.0', 8],
  ['172.16.0.0', 12],
  ['192.168.0.0', 16],
  ['169.254.0.0', 16],
] as const)
  near.addSubnet(net, prefix, 'ipv4');
near.addAddress('::1', 'ipv6');
near.addSubnet('fc00::', 7, 'ipv6');
near.addSubnet('fe80::', 10, 'ipv6');

/** Only the nearest hop: what callers themselves wrote into the header is further away, and counts for nothing. */
export function oneProxy(address: string, hop: number): boolean {
  const plain = address.replace(/^::ffff:/, '');
  return hop === 0 && near.check(plain, isIPv6(plain) ? 'ipv6' : 'ipv4');
}
