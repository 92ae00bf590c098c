import 'reflect-metadata';
import { X509Certificate as NodeCertificate, webcrypto } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { isIP } from 'node:net';
import {
  AuthorityKeyIdentifierExtension,
  BasicConstraintsExtension,
  cryptoProvider,
  ExtendedKeyUsage,
  ExtendedKeyUsageExtension,
  KeyUsageFlags,
  KeyUsagesExtension,
  PemConverter,
  SubjectAlternativeNameExtension,
  SubjectKeyIdentifierExtension,
  X509Certificate,
  X509CertificateGenerator,
} from '@peculiar/x509';
import { certificateFiles } from './certificate-files.ts';
import { localNamesOnly, mayVouchFor } from './name-constraints.ts';

const DAY_MS = 86_400_000;
const AUTHORITY_DAYS = 3650;
/** Phones refuse certificates that hold longer than 825 days, also of an authority they were told to trust; 397 is what browsers ask of public ones. */
const SERVER_DAYS = 397;
const KEYS = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' } as const;

export interface MadeCertificate {
  /** The file to be trusted on each phone. */
  readonly authorityFile: string;
  readonly fingerprint: string;
  readonly until: Date;
  readonly newAuthority: boolean;
  /** What the certificate holds for. */
  readonly names: readonly string[];
  /** Asked for, but nothing the authority may vouch for. */
  readonly leftOut: readonly string[];
}

/**
 * Makes a certificate for the names and addresses of this machine, signed by an authority of its own that is made the first time and
 * kept, so that phones that trust it go on doing so. The authority may vouch for names and addresses of a home alone; others are left out. Keys are readable by their owner only. ECDSA P-256 (FIPS 186-5), X.509 v3 (RFC 5280).
 */
export async function makeCertificate(
  dataFolder: string,
  asked: readonly string[],
  nowMs: number,
): Promise<MadeCertificate> {
  cryptoProvider.set(webcrypto as never);
  const files = certificateFiles(dataFolder);
  mkdirSync(files.folder, { recursive: true, mode: 0o700 });
  const newAuthority = !existsSync(files.authority) || !existsSync(files.authorityKey);
  if (newAuthority) await makeAuthority(files, asked, nowMs);
  const authority = new X509Certificate(readFileSync(files.authority, 'utf8'));
  const names = asked.filter((name) => mayVouchFor(authority, name));
  const leftOut = asked.filter((name) => !names.includes(name));
  const authorityKey = await readKey(files.authorityKey);
  const keys = (await webcrypto.subtle.generateKey(KEYS, true, ['sign', 'verify'])) as webcrypto.CryptoKeyPair;
  const until = new Date(Math.min(nowMs + SERVER_DAYS * DAY_MS, authority.notAfter.getTime()));
  const certificate = await X509CertificateGenerator.create({
    serialNumber: serial(),
    subject: `CN=${names[0] ?? 'localhost'}`,
    issuer: authority.subject,
    // A phone whose clock is a little behind must not find it too young.
    notBefore: new Date(nowMs - DAY_MS),
    notAfter: until,
    publicKey: keys.publicKey as never,
    signingKey: authorityKey as never,
    signingAlgorithm: KEYS,
    extensions: [
      new BasicConstraintsExtension(false, undefined, true),
      new KeyUsagesExtension(KeyUsageFlags.digitalSignature, true),
      new ExtendedKeyUsageExtension([ExtendedKeyUsage.serverAuth]),
      new SubjectAlternativeNameExtension(
        names.map((name) => ({ type: isIP(name) ? ('ip' as const) : ('dns' as const), value: name })),
      ),
      await AuthorityKeyIdentifierExtension.create(authority),
    ],
  });
  await writeKey(files.key, keys.privateKey);
  writeFileSync(files.certificate, `${certificate.toString('pem')}\n${authority.toString('pem')}\n`);
  const { fingerprint256 } = new NodeCertificate(readFileSync(files.authority));
  return { authorityFile: files.authority, fingerprint: fingerprint256, until, newAuthority, names, leftOut };
}

async function makeAuthority(
  files: ReturnType<typeof certificateFiles>,
  ownNames: readonly string[],
  nowMs: number,
): Promise<void> {
  const keys = (await webcrypto.subtle.generateKey(KEYS, true, ['sign', 'verify'])) as webcrypto.CryptoKeyPair;
  const authority = await X509CertificateGenerator.createSelfSigned({
    serialNumber: serial(),
    name: 'CN=Stillwinter on this machine',
    notBefore: new Date(nowMs - DAY_MS),
    notAfter: new Date(nowMs + AUTHORITY_DAYS * DAY_MS),
    keys: keys as never,
    signingAlgorithm: KEYS,
    extensions: [
      // It can sign for servers only, never make another authority.
      new BasicConstraintsExtension(true, 0, true),
      new KeyUsagesExtension(KeyUsageFlags.keyCertSign | KeyUsageFlags.cRLSign, true),
      localNamesOnly(ownNames),
      await SubjectKeyIdentifierExtension.create(keys.publicKey as never),
    ],
  });
  await writeKey(files.authorityKey, keys.privateKey);
  writeFileSync(files.authority, `${authority.toString('pem')}\n`);
}

function serial(): string {
  const bytes = webcrypto.getRandomValues(new Uint8Array(16));
  // Positive, and never shorter than it was drawn.
  bytes[0] = (bytes[0]! & 0x7f) | 0x40;
  return Buffer.from(bytes).toString('hex');
}

async function writeKey(file: string, key: webcrypto.CryptoKey): Promise<void> {
  const pem = PemConverter.encode(await webcrypto.subtle.exportKey('pkcs8', key), 'PRIVATE KEY');
  writeFileSync(file, `${pem}\n`, { mode: 0o600 });
}

async function readKey(file: string): Promise<webcrypto.CryptoKey> {
  const [der] = PemConverter.decode(readFileSync(file, 'utf8'));
  return webcrypto.subtle.importKey('pkcs8', der as ArrayBuffer, KEYS, false, ['sign']);
}
