import type { IncomingMessage, ServerResponse } from "node:http";
import type { Health } from "#shared/protocol/api.ts";
import { API_ERRORS, type ApiError, type ApiErrorCode } from "#shared/protocol/api-errors.ts";
import { hashSecret, sameHash } from "../access/tokens.ts";
import { setSecurityHeaders } from "../headers.ts";
import { type Log, whyOf } from "../log.ts";
import type { Metrics } from "../metrics/metrics.ts";
import { METRICS_TYPE } from "../metrics/registry.ts";
import { BoardFull } from "../rooms/room.ts";
import { StorageRefusal } from "../storage/storage.ts";
import { type AddressOf, isFromHere } from "./client-address.ts";
import type { Handler } from "./handler.ts";
import type { OriginCheck } from "./origin.ts";
import type { RateBound } from "./rate-bound.ts";
import { toApiRequest } from "./request.ts";

export interface ApiParts {
  readonly routes: Readonly<Record<string, Handler>>;
  readonly isOriginAllowed: OriginCheck;
  readonly health: () => Health;
  readonly metrics: Metrics;
  /** Opens the metrics from elsewhere than this machine; empty = nothing does. */
  readonly metricsToken: string;
  readonly addressOf: AddressOf;
  /** Bounds the requests of one address, whatever they ask for. */
  readonly mayCall: RateBound;
  /** Bounds the writing requests of one token. */
  readonly mayWrite: RateBound;
  readonly bodyBytes: number;
  readonly overTls: boolean;
  readonly log: Log;
}

/** Answers a request of the API and resolves to true; to false for a path that is not the API's. Never rejects. */
export type Api = (request: IncomingMessage, response: ServerResponse) => Promise<boolean>;

export const createApi = (parts: ApiParts): Api => {
  const routes = Object.entries(parts.routes).map(toRoute);

  const refuse = (response: ServerResponse, error: ApiErrorCode): void => {
    parts.metrics.refusals.add(1, error);
    sendRefusal(response, error);
  };

  const answer = async (request: IncomingMessage, response: ServerResponse, path: string): Promise<void> => {
    const { origin, host } = request.headers;
    if (!parts.isOriginAllowed(origin, host)) return refuse(response, "other-origin");
    const address = parts.addressOf(request);
    if (!parts.mayCall(address)) return refuse(response, "too-many");
    const here = routes.filter(({ pattern }) => pattern.test(path));
    if (here.length === 0) return refuse(response, "not-found");
    const method = request.method === "HEAD" ? "GET" : request.method;
    const route = here.find((one) => one.method === method);
    if (route === undefined) {
      response.setHeader("Allow", allowed(here));
      return request.method === "OPTIONS" ? reply(response, 204) : refuse(response, "wrong-method");
    }
    const id = decoded(route.pattern.exec(path)?.[1] ?? "");
    if (id === null) return refuse(response, "not-found");
    const asked = toApiRequest(request, id, address, parts.bodyBytes);
    // By its hash: what is counted here must not be readable in a dump of the memory.
    if (method !== "GET" && asked.bearer !== null && !parts.mayWrite(hashSecret(asked.bearer)))
      return refuse(response, "too-many");
    const result = await route.handler(asked);
    if (result.ok) {
      const { status, body, etag } = result.value;
      if (etag !== undefined) response.setHeader("ETag", etag);
      reply(response, status, body);
    } else refuse(response, result.error);
  };

  return async (request, response) => {
    const path = (request.url ?? "/").split("?", 1)[0] ?? "/";
    if (path !== "/healthz" && path !== "/metrics" && path !== "/api" && !path.startsWith("/api/"))
      return false;
    setSecurityHeaders(response, parts.overTls);
    response.setHeader("Cache-Control", "no-store");
    try {
      if (path === "/healthz") sendHealth(response, parts.health());
      else if (path === "/metrics") {
        // To whoever may not read them, they are not there.
        if (maySeeMetrics(request, parts.metricsToken)) sendMetrics(response, parts.metrics.render());
        else refuse(response, "not-found");
      } else await answer(request, response, path);
    } catch (error) {
      parts.log.error("request-failed", { method: request.method, path, why: whyOf(error) });
      refuse(response, refusalFor(error));
    }
    return true;
  };
};

const toRoute = ([key, handler]: [string, Handler]) => {
  const [method = "", path = ""] = key.split(" ");
  return { method, handler, pattern: new RegExp(`^${path.replace(":id", "([^/]+)")}$`) };
};

/** Node answers HEAD with a GET's headers by itself. */
const allowed = (routes: readonly { readonly method: string }[]): string => {
  const methods = routes.map(({ method }) => method);
  return [...methods, ...(methods.includes("GET") ? ["HEAD"] : []), "OPTIONS"].join(", ");
};

const decoded = (segment: string): string | null => {
  try {
    return decodeURIComponent(segment);
  } catch {
    return null;
  }
};

const refusalFor = (error: unknown): ApiErrorCode => {
  if (error instanceof BoardFull) return "board-full";
  return error instanceof StorageRefusal ? "not-stored" : "server-mistake";
};

const maySeeMetrics = (request: IncomingMessage, token: string): boolean => {
  const { bearer } = toApiRequest(request, "", "", 0);
  const known = token !== "" && bearer !== null && sameHash(hashSecret(bearer), hashSecret(token));
  return known || isFromHere(request);
};

const sendMetrics = (response: ServerResponse, page: string): void => {
  response.setHeader("Content-Type", METRICS_TYPE);
  response.end(page);
};

const sendHealth = (response: ServerResponse, health: Health): void =>
  reply(response, health.status === "ok" ? 200 : 503, health);

const sendRefusal = (response: ServerResponse, error: ApiErrorCode): void => {
  const { status, message } = API_ERRORS[error];
  const body: ApiError = { error, message };
  if (error === "too-many") response.setHeader("Retry-After", "60");
  // What is left of an overlong body is not read, so the connection cannot be used again.
  if (error === "too-large") response.setHeader("Connection", "close");
  reply(response, status, body);
};

const reply = (response: ServerResponse, status: number, body?: object | Uint8Array): void => {
  if (response.headersSent) return;
  response.statusCode = status;
  if (body === undefined) {
    response.end();
    return;
  }
  if (body instanceof Uint8Array) {
    response.setHeader("Content-Type", "application/octet-stream");
    response.end(body);
    return;
  }
  response.setHeader("Content-Type", "application/json; charset=utf-8");
  response.end(JSON.stringify(body));
};
