import type { IncomingMessage } from "node:http";
import * as v from "valibot";
import { err, ok, type Result } from "#shared/lib/result.ts";
import type { ApiErrorCode } from "#shared/protocol/api-errors.ts";

/** What a handler sees of a request. */
export interface ApiRequest {
  /** The token or secret of the Authorization header; null when there is none. */
  readonly bearer: string | null;
  /** The variable segment of the path; empty when the route has none. */
  readonly id: string;
  /** What follows the question mark. It never carries secrets, as addresses end up in logs. */
  readonly query: URLSearchParams;
  /** The tag of what the client has already; null when it sends none. */
  readonly ifNoneMatch: string | null;
  /** Network address the request came from, as bounds count it. */
  readonly address: string;
  /**
   * Reads and validates the body; none at all counts as an empty object. Only what the schema names comes through, on a
   * fresh object.
   */
  body<S extends v.GenericSchema>(schema: S): Promise<Result<v.InferOutput<S>, ApiErrorCode>>;
}

export interface ApiReply {
  readonly status: number;
  /** Sent as JSON, or as it is when it is bytes; absent = no body. */
  readonly body?: object | Uint8Array;
  /** Names this state of the body; a client that has it is answered 304 without one. */
  readonly etag?: string;
}

export const toApiRequest = (
  request: IncomingMessage,
  id: string,
  address: string,
  maxBytes: number,
): ApiRequest => ({
  bearer: bearerOf(request.headers.authorization),
  id,
  query: new URLSearchParams((request.url ?? "").split("?").slice(1).join("?")),
  ifNoneMatch: request.headers["if-none-match"] ?? null,
  address,
  async body(schema) {
    const text = await readText(request, maxBytes);
    if (!text.ok) return text;
    const parsed = v.safeParse(schema, parseJson(text.value));
    return parsed.success ? ok(parsed.output) : err("bad-request");
  },
});

const bearerOf = (header: string | undefined): string | null =>
  /^Bearer ([\w~+/.=-]{1,200})$/i.exec(header ?? "")?.[1] ?? null;

const parseJson = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
};

const readText = async (
  request: IncomingMessage,
  maxBytes: number,
): Promise<Result<string, ApiErrorCode>> => {
  const { "content-length": length, "transfer-encoding": chunked } = request.headers;
  if ((length === undefined || length === "0") && chunked === undefined) return ok("{}");
  // The type also keeps other sites' forms out: a browser asks before it sends JSON across origins.
  if (!/^application\/json\s*(;|$)/i.test(request.headers["content-type"] ?? "")) return err("not-json");
  const chunks: Buffer[] = [];
  let bytes = 0;
  // Leaving the loop early must not destroy the socket, or nobody would read why.
  for await (const chunk of request.iterator({ destroyOnReturn: false }) as AsyncIterable<Buffer>) {
    bytes += chunk.length;
    if (bytes > maxBytes) return err("too-large");
    chunks.push(chunk);
  }
  return ok(Buffer.concat(chunks).toString("utf8"));
};
