import type { ServerResponse } from "node:http";
import { WORKER_POLICY } from "#shared/protocol/version.ts";

/**
 * What the page may do: run and show only what this server sent. Nothing inline, nothing from elsewhere, no frames, and
 * no text turned into markup or code (Trusted Types), except the service worker's address by one named policy.
 */
const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "style-src-attr 'none'",
  "img-src 'self' data:",
  "font-src 'self'",
  "connect-src 'self'",
  "manifest-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
  "require-trusted-types-for 'script'",
  `trusted-types ${WORKER_POLICY}`,
].join("; ");

const TWO_YEARS_S = 63_072_000;

/** The headers of every reply. `overTls`: people reach this server by https, so browsers may insist on it. */
export const setSecurityHeaders = (response: ServerResponse, overTls: boolean): void => {
  response.setHeader("Content-Security-Policy", CONTENT_SECURITY_POLICY);
  response.setHeader("X-Content-Type-Options", "nosniff");
  response.setHeader("Referrer-Policy", "no-referrer");
  response.setHeader("Cross-Origin-Opener-Policy", "same-origin");
  response.setHeader("Cross-Origin-Resource-Policy", "same-origin");
  if (overTls) response.setHeader("Strict-Transport-Security", `max-age=${TWO_YEARS_S}`);
};
