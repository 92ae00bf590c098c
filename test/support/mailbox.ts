import type { AddressInfo } from 'node:net';
import { SMTPServer } from 'smtp-server';
import { localCertificate } from './certificate.ts';

interface Mail {
  readonly to: readonly string[];
  readonly raw: string;
  readonly secure: boolean;
  readonly atMs: number;
}

export interface Mailbox {
  readonly port: number;
  readonly certificate: string;
  readonly mails: Mail[];
  /** What the server does with the next recipients. */
  refuse: { code: number; text: string } | undefined;
  /** Resolves once a mail satisfies the test. */
  until(test: (mail: Mail) => boolean, withinMs?: number): Promise<Mail>;
  stop(): Promise<void>;
}

/** A real SMTP server with TLS and sign-in, that keeps what it gets. */
export async function startMailbox(port = 0): Promise<Mailbox> {
  const { key, certificate } = await localCertificate();
  const mails: Mail[] = [];
  const box: Pick<Mailbox, 'refuse'> = { refuse: undefined };
  const server = new SMTPServer({
    key,
    cert: certificate,
    authOptional: false,
    onAuth: (auth, _, done) =>
      auth.username === 'shed' && auth.password === 'a long line'
        ? done(null, { user: 'shed' })
        : done(new Error('wrong')),
    onRcptTo: (_address, _, done) => {
      if (!box.refuse) return done();
      const error = Object.assign(new Error(box.refuse.text), { responseCode: box.refuse.code });
      return done(error);
    },
    onData: (stream, session, done) => {
      const parts: Buffer[] = [];
      stream.on('data', (part: Buffer) => parts.push(part));
      stream.on('end', () => {
        const to = session.envelope.rcptTo.map((one) => one.address);
        mails.push({ to, raw: Buffer.concat(parts).toString('utf8'), secure: session.secure, atMs: Date.now() });
        done();
      });
    },
  });
  server.on('error', () => undefined);
  await new Promise<void>((done) => server.listen(port, '127.0.0.1', done));
  return Object.assign(box, {
    port: (server.server.address() as AddressInfo).port,
    certificate,
    mails,
    until: async (test: (mail: Mail) => boolean, withinMs = 10_000) => {
      for (const from = Date.now(); Date.now() - from < withinMs; ) {
        const found = mails.find(test);
        if (found) return found;
        await new Promise((done) => setTimeout(done, 20));
      }
      throw new Error(`no such mail within ${withinMs} ms; there are ${mails.length}`);
    },
    stop: () => new Promise<void>((done) => server.close(() => done())),
  });
}
