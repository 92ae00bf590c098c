import 'reflect-metadata';
import { execFileSync, spawnSync } from 'node:child_process';
import { webcrypto } from 'node:crypto';
import { once } from 'node:events';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { isIP } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connect, createServer } from 'node:tls';
import {
  cryptoProvider,
  PemConverter,
  SubjectAlternativeNameExtension,
  X509Certificate,
  X509CertificateGenerator,
} from '@peculiar/x509';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeCertificate } from '../../src/server/authority.ts';

/**
 * Outside the project: OpenSSL, inside Node's TLS and as a program where there is one, judges certificates by RFC 5280, 4.2.1.10 and 6.1. A
 * thief with the key of the authority made here can sign what they like; the verifiers must still refuse a name of the open internet.
 */
const KEYS = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' } as const;
const HAS_OPENSSL = spawnSync('openssl', ['version']).status === 0;

let folder: string;
let authorityFile: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'stillwinter-names-'));
  const made = await makeCertificate(
    folder,
    ['shed', 'shed.local', '192.168.1.20', '203.0.113.7', '2001:db8::5'],
    Date.now(),
  );
  authorityFile = made.authorityFile;
  expect(made.names).toEqual(['shed', 'shed.local', '192.168.1.20']);
  expect(made.leftOut).toEqual(['203.0.113.7', '2001:db8::5']);
});
afterAll(() => rmSync(folder, { recursive: true }));

/** A certificate for one name, signed with the authority's own key, past everything our code would refuse. */
async function forged(name: string): Promise<{ cert: string; key: string }> {
  cryptoProvider.set(webcrypto as never);
  const authority = new X509Certificate(readFileSync(authorityFile, 'utf8'));
  const [der] = PemConverter.decode(readFileSync(join(folder, 'https', 'authority-key.pem'), 'utf8'));
  const signingKey = await webcrypto.subtle.importKey('pkcs8', der as ArrayBuffer, KEYS, false, ['sign']);
  const keys = (await webcrypto.subtle.generateKey(KEYS, true, ['sign', 'verify'])) as webcrypto.CryptoKeyPair;
  const certificate = await X509CertificateGenerator.create({
    serialNumber: '4711',
    subject: 'CN=forged',
    issuer: authority.subject,
    notBefore: new Date(Date.now() - 86_400_000),
    notAfter: new Date(Date.now() + 86_400_000),
    publicKey: keys.publicKey as never,
    signingKey: signingKey as never,
    signingAlgorithm: KEYS,
    extensions: [new SubjectAlternativeNameExtension([{ type: isIP(name) ? 'ip' : 'dns', value: name }])],
  });
  const key = PemConverter.encode(await webcrypto.subtle.exportKey('pkcs8', keys.privateKey), 'PRIVATE KEY');
  return { cert: certificate.toString('pem'), key };
}

/** What Node's TLS says to a server with this certificate: `undefined` when it is content. */
async function tlsSays(cert: string, key: string, name: string): Promise<string | undefined> {
  const server = createServer({ cert, key }, (socket) => socket.end());
  server.on('tlsClientError', () => undefined);
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  try {
    return await new Promise((done) => {
      const socket = connect(
        { host: '127.0.0.1', port, ca: readFileSync(authorityFile), ...(isIP(name) ? {} : { servername: name }) },
        () => {
          socket.destroy();
          done(undefined);
        },
      );
      // A bare address is compared by Node itself; the chain has been judged by then.
      socket.on('error', (error) => done(error.message));
    });
  } finally {
    server.close();
  }
}

const HOME = ['shed', 'shed.local', 'localhost', 'box.home.arpa'];
const ABROAD = ['bank.example.org', 'local.example.org', 'example.org', 'notlocal'];

describe('the authority of a home', () => {
  it.each(HOME)('may vouch for %s', async (name) => {
    const { cert, key } = await forged(name);
    expect(await tlsSays(cert, key, name)).toBeUndefined();
  });

  it.each(ABROAD)('is refused by TLS when it vouches for %s, though its key signed it', async (name) => {
    const { cert, key } = await forged(name);
    expect(await tlsSays(cert, key, name)).toBe('permitted subtree violation');
  });

  it('says so in a critical extension', () => {
    const extension = new X509Certificate(readFileSync(authorityFile, 'utf8')).getExtension('2.5.29.30');
    expect(extension?.critical).toBe(true);
  });

  it.runIf(HAS_OPENSSL)(
    'is judged so by openssl verify: private addresses pass, others and public names do not',
    async () => {
      const verdict = async (name: string): Promise<string> => {
        const file = join(folder, 'leaf.pem');
        writeFileSync(file, (await forged(name)).cert);
        const run = spawnSync('openssl', ['verify', '-x509_strict', '-CAfile', authorityFile, file], {
          encoding: 'utf8',
        });
        return `${run.stdout}${run.stderr}`;
      };
      for (const name of [...HOME, '192.168.1.20', '10.4.4.4', '172.31.0.1', '::1', 'fd00::7', 'fe80::1'])
        expect(await verdict(name), name).not.toContain('permitted subtree violation');
      for (const name of [...ABROAD, '203.0.113.7', '172.32.0.1', '192.169.0.1', '2001:db8::5'])
        expect(await verdict(name), name).toContain('permitted subtree violation');
      const own = join(folder, 'https', 'server.pem');
      expect(execFileSync('openssl', ['verify', '-CAfile', authorityFile, own], { encoding: 'utf8' })).toContain('OK');
    },
  );
});
