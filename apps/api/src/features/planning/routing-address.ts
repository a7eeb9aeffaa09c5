import { lookup } from 'node:dns/promises';
import { BlockList } from 'node:net';

/**
 * Where no routing service is: what a cloud tells its machines about themselves, keys among them (link-local, and the
 * addresses that providers use for it), everybody at once, and nobody. A service on the company's own network, or on
 * this machine, is what one would expect.
 */
const never = new BlockList();
never.addSubnet('169.254.0.0', 16);
never.addSubnet('0.0.0.0', 8);
never.addSubnet('224.0.0.0', 4);
never.addSubnet('240.0.0.0', 4);
never.addAddress('100.100.100.200');
never.addAddress('168.63.129.16');
never.addSubnet('fe80::', 10, 'ipv6');
never.addSubnet('ff00::', 8, 'ipv6');
never.addAddress('::', 'ipv6');
never.addAddress('fd00:ec2::254', 'ipv6');

/** Why an address is none of a routing service, in words. One that cannot be looked up is nobody's, and is let pass. */
export async function outOfBounds(url: string): Promise<string | undefined> {
  const host = new URL(url).hostname.replace(/^\[|\]$/g, '');
  const found = await lookup(host, { all: true }).catch(() => []);
  const wrong = found.find(({ address, family }) => never.check(address, family === 6 ? 'ipv6' : 'ipv4'));
  return wrong && `${host} leads to ${wrong.address}, where no routing service can be.`;
}
