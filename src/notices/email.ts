import { createTransport, type Transporter } from 'nodemailer';
import { ChannelGoneError, type Letter, TryLaterError } from './letter.ts';

export interface EmailSettings {
  readonly host: string;
  readonly port: number;
  /** TLS from the first byte; otherwise STARTTLS is required unless `plain`. */
  readonly secure: boolean;
  /** Sends without TLS: for a relay on this machine only. */
  readonly plain?: boolean;
  readonly user?: string;
  readonly password?: string;
  readonly from: string;
  /** Certificate to trust instead of the usual ones, PEM. */
  readonly certificate?: string;
  /** Address of the app, for links. */
  readonly appAddress?: string;
}

export interface EmailSender {
  send(address: string, letter: Letter): Promise<void>;
  close(): void;
}

/** Control characters would end a header early and begin another one. */
const oneLine = (text: string) => text.replace(/[\p{Cc}\u2028\u2029]+/gu, ' ').trim();

/** Sends letters over SMTP, with TLS. An address refused for good (550 to 553) means the channel is gone; all else is tried again. */
export function emailSender(settings: EmailSettings): EmailSender {
  const transport: Transporter = createTransport({
    host: settings.host,
    port: settings.port,
    secure: settings.secure,
    requireTLS: !settings.secure && settings.plain !== true,
    ignoreTLS: settings.plain === true,
    ...(settings.user === undefined ? {} : { auth: { user: settings.user, pass: settings.password ?? '' } }),
    ...(settings.certificate === undefined ? {} : { tls: { ca: settings.certificate } }),
    connectionTimeout: 10_000,
    greetingTimeout: 10_000,
    socketTimeout: 20_000,
    disableFileAccess: true,
    disableUrlAccess: true,
  });
  const domain = settings.from.split('@').at(-1)?.replace(/>.*$/, '') || 'stillwinter.invalid';
  return {
    async send(address, letter) {
      try {
        await transport.sendMail({
          from: settings.from,
          to: { name: '', address },
          subject: oneLine(letter.title),
          text: settings.appAddress ? `${letter.text}\n\n${settings.appAddress}${letter.path}\n` : `${letter.text}\n`,
          // The same delivery tried twice carries the same identity, so that a mail program shows it once.
          messageId: `<${letter.id}@${domain}>`,
          headers: {
            'Auto-Submitted': 'auto-generated',
            ...(letter.level === 'act-now' ? { Importance: 'high' } : {}),
          },
        });
      } catch (error) {
        const { responseCode: code, command } = error as { responseCode?: number; command?: string };
        const reason = error instanceof Error ? error.message : String(error);
        if (command === 'RCPT TO' && code !== undefined && code >= 550 && code <= 553)
          throw new ChannelGoneError(reason);
        throw new TryLaterError(reason);
      }
    },
    close: () => transport.close(),
  };
}
