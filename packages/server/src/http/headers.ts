/** Headers of every answer: what a page may load and do. Nothing comes from or goes to another host. */

import { isApi } from './guard.ts';

const POLICY = [
  "default-src 'self'",
  // The engine's loops are a WebAssembly module; text is never run as a program ('unsafe-eval').
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

export const HEADERS: Readonly<Record<string, string>> = {
  'content-security-policy': POLICY,
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'permissions-policy': 'camera=(), geolocation=(), microphone=(), payment=(), usb=()',
  'cache-control': 'no-store',
};

/** For files that people brought: shown, never run. */
export const SANDBOX = "default-src 'none'; sandbox";

/**
 * How long an answer may be kept. Names in assets/ hold a print of their contents; the app's other files are asked for again,
 * with their etag; what the API answers is not kept.
 */
export function cachingOf(url: string): string {
  if (isApi(url)) return 'no-store';
  return url.startsWith('/assets/') ? 'public, max-age=31536000, immutable' : 'no-cache';
}
