/** What the page may do, as headers: the same from the loopback address and from the shell's own scheme. */

const POLICY: Readonly<Record<string, string>> = {
  'default-src': "'none'",
  'script-src': "'self'",
  // The editor component sets styles of its own.
  'style-src': "'self' 'unsafe-inline'",
  'font-src': "'self' data:",
  'img-src': "'self' data: blob:",
  'connect-src': "'self'",
  'worker-src': "'self'",
  'base-uri': "'none'",
  'form-action': "'none'",
  'frame-src': "'none'",
  'frame-ancestors': "'none'",
  'object-src': "'none'",
};

export const PAGE_POLICY = Object.entries(POLICY)
  .map(([what, whence]) => `${what} ${whence}`)
  .join('; ');

export const PAGE_HEADERS: Readonly<Record<string, string>> = {
  'content-security-policy': PAGE_POLICY,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'permissions-policy': 'camera=(), microphone=(), geolocation=(), usb=(), serial=(), hid=(), midi=(), payment=(), display-capture=()',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'cache-control': 'no-store',
};
