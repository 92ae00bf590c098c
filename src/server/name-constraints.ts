import { BlockList, isIP } from 'node:net';
import { AsnConvert } from '@peculiar/asn1-schema';
import { GeneralName, GeneralSubtree, GeneralSubtrees, NameConstraints } from '@peculiar/asn1-x509';
import { Extension, type X509Certificate } from '@peculiar/x509';

const NAME_CONSTRAINTS = '2.5.29.30';
/** Names that no public site can bear: RFC 6761, RFC 6762, RFC 8375, and `internal`, set aside by ICANN in 2024. */
const LOCAL_DOMAINS = ['localhost', 'local', 'home.arpa', 'internal'];
/** Addresses that lead nowhere outside a home: RFC 1918, RFC 3927, RFC 1122, RFC 4193 and RFC 4291. */
const LOCAL_ADDRESSES = [
  '10.0.0.0/8',
  '172.16.0.0/12',
  '192.168.0.0/16',
  '169.254.0.0/16',
  '127.0.0.0/8',
  '::1/128',
  'fc00::/7',
  'fe80::/10',
];

/**
 * What an authority may vouch for (RFC 5280, 4.2.1.10): names and addresses of a home, and this machine's own names. Critical, so that a
 * program that does not know the limit refuses the authority: a stolen key cannot pose as a bank.
 */
export function localNamesOnly(ownNames: readonly string[]): Extension {
  const domains = [...new Set([...LOCAL_DOMAINS, ...ownNames.filter((name) => !isIP(name))])];
  const bases = [
    ...domains.map((dNSName) => new GeneralName({ dNSName })),
    ...LOCAL_ADDRESSES.map((iPAddress) => new GeneralName({ iPAddress })),
  ];
  const permittedSubtrees = new GeneralSubtrees(bases.map((base) => new GeneralSubtree({ base })));
  return new Extension(NAME_CONSTRAINTS, true, AsnConvert.serialize(new NameConstraints({ permittedSubtrees })));
}

/** Whether an authority may vouch for a name or address. One without limits may for all. */
export function mayVouchFor(authority: X509Certificate, name: string): boolean {
  const extension = authority.getExtension(NAME_CONSTRAINTS);
  if (!extension) return true;
  const bases = [...(AsnConvert.parse(extension.value, NameConstraints).permittedSubtrees ?? [])].map(
    (one) => one.base,
  );
  const family = isIP(name);
  if (family === 0)
    return bases.some(({ dNSName }) => dNSName !== undefined && (name === dNSName || name.endsWith(`.${dNSName}`)));
  const permitted = new BlockList();
  for (const { iPAddress } of bases) {
    const [address, prefix] = iPAddress?.split('/') ?? [];
    if (address !== undefined && prefix !== undefined)
      permitted.addSubnet(address, Number(prefix), isIP(address) === 6 ? 'ipv6' : 'ipv4');
  }
  return permitted.check(name, family === 6 ? 'ipv6' : 'ipv4');
}
