import { hostname, networkInterfaces } from 'node:os';
import { makeCertificate } from '../server/authority.ts';
import { say } from '../wording/say.ts';
import type { Outcome } from './outcome.ts';
import { dataFolderOf } from './records.ts';

export interface CertificateOptions {
  readonly data?: string;
  readonly port?: string;
}

/** `stillwinter certificate`: makes what local HTTPS needs, and says how a phone comes to trust it. */
export async function certificateCommand(options: CertificateOptions): Promise<Outcome> {
  const own = hostname().toLowerCase();
  const addresses = Object.values(networkInterfaces()).flatMap((all) =>
    (all ?? []).filter((one) => !one.internal && !one.address.startsWith('fe80')).map((one) => one.address),
  );
  const local = own.includes('.') ? own : `${own}.local`;
  const asked = [...new Set([own, local, 'localhost', '127.0.0.1', '::1', ...addresses])];
  const made = await makeCertificate(dataFolderOf(options), asked, Date.now());
  const { names, leftOut } = made;
  const port = options.port ?? process.env.STILLWINTER_PORT ?? '8190';
  const reached = addresses.find((one) => one.includes('.') && names.includes(one)) ?? local;
  const address = `https://${reached}:${port}`;
  const { default: qrcode } = await import('qrcode');
  const picture = await qrcode.toString(address, { type: 'utf8', errorCorrectionLevel: 'M' });
  const values = {
    names: names.join(', '),
    until: made.until.toISOString().slice(0, 10),
    file: made.authorityFile,
    fingerprint: made.fingerprint,
    address,
  };
  return {
    json: {
      names,
      leftOut,
      address,
      authorityFile: made.authorityFile,
      fingerprint: made.fingerprint,
      until: values.until,
    },
    text: [
      say('cli.certificate.made', values),
      ...(leftOut.length > 0 ? [say('cli.certificate.leftOut', { names: leftOut.join(', ') })] : []),
      '',
      say(made.newAuthority ? 'cli.certificate.trust' : 'cli.certificate.trusted', values),
      '',
      say('cli.certificate.serve', values),
      picture,
    ].join('\n'),
    code: 0,
  };
}
