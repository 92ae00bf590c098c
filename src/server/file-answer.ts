/**
 * A file to open or keep. Its name is written twice (RFC 6266): in plain letters for old programs, and whole (RFC 8187). Neither can end the
 * header or name a folder, whatever an animal is called.
 */
export function fileAnswer(bytes: Uint8Array | string, type: string, name: string, extension: string): Response {
  const body = typeof bytes === 'string' ? bytes : new Uint8Array(bytes);
  return new Response(body, {
    headers: {
      'content-type': type,
      'cache-control': 'no-store',
      'content-disposition': dispositionOf(name, extension),
    },
  });
}

/** The header that names a file; a PDF opens in the browser, an archive is kept at once. */
export function dispositionOf(name: string, extension: string, kind: 'inline' | 'attachment' = 'inline'): string {
  // Lone halves of a letter cannot be encoded; signs that part folders or are hidden become spaces.
  const whole = name
    .toWellFormed()
    .replace(/[\p{Cc}\p{Cf}/\\:*?"<>|]+/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .slice(0, 120)
    .replace(/^\.+/, '');
  const plain = whole
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[^a-z0-9]+/gi, '-')
    .replace(/^-+|-+$/g, '')
    .toLowerCase();
  const encoded = encodeURIComponent(`${whole.toWellFormed() || 'stillwinter'}.${extension}`).replace(
    /['()*]/g,
    (sign) => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`,
  );
  return `${kind}; filename="${plain || 'stillwinter'}.${extension}"; filename*=UTF-8''${encoded}`;
}
