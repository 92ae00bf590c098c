import { join } from 'node:path';

/** Where the files of local HTTPS lie in a data folder. */
export function certificateFiles(dataFolder: string) {
  const folder = join(dataFolder, 'https');
  return {
    folder,
    authority: join(folder, 'authority.pem'),
    authorityKey: join(folder, 'authority-key.pem'),
    certificate: join(folder, 'server.pem'),
    key: join(folder, 'server-key.pem'),
  };
}
