/** Answers whether a page of this origin may talk to this server; `host` is the request's own Host header. */
export type OriginCheck = (origin: string | undefined, host: string | undefined) => boolean;

/**
 * Exact: the page's host and port are those of the request, or its origin is configured. No header means no browser,
 * which is let through, as nothing here rests on what a browser sends by itself: there is always a token.
 */
export const createOriginCheck =
  (configured: readonly string[]): OriginCheck =>
  (origin, host) => {
    if (origin === undefined || configured.includes(origin)) return true;
    const match = /^https?:\/\/([^/]+)$/.exec(origin);
    return match !== null && host !== undefined && match[1]?.toLowerCase() === host.toLowerCase();
  };
