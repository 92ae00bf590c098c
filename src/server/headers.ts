import type { MiddlewareHandler } from 'hono';
import { isHttps } from './guard.ts';

/**
 * Hashes of the two style elements that react-aria puts into the page (for pressable elements, and in modals on iOS); computed
 * from its source, to be computed again when it is upgraded.
 */
const STYLES = [
  'sha256-38RhXrc7EdReTKsOm23ZPOCUgniTUUcjky8QOOrQx6o=',
  'sha256-gYiS/BvZvRcK27JIXTuwhZ3hs2+VJ1X+2gUlE+farlg=',
];

/** Nothing from elsewhere, nothing inline: all that the app needs comes from this server. */
const POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  `style-src 'self' ${STYLES.map((hash) => `'${hash}'`).join(' ')}`,
  "img-src 'self' blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "manifest-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
  "object-src 'none'",
].join('; ');

/** Headers of every answer; what the API says is private and never kept by a cache. */
export const protectiveHeaders: MiddlewareHandler = async (http, next) => {
  await next();
  const headers = http.res.headers;
  headers.set('content-security-policy', POLICY);
  headers.set('x-content-type-options', 'nosniff');
  headers.set('referrer-policy', 'no-referrer');
  headers.set('cross-origin-opener-policy', 'same-origin');
  headers.set('cross-origin-resource-policy', 'same-origin');
  headers.set('permissions-policy', 'camera=(self), geolocation=(), microphone=()');
  if (!headers.has('cache-control')) headers.set('cache-control', 'no-store');
  if (isHttps(http)) headers.set('strict-transport-security', 'max-age=31536000; includeSubDomains');
};
