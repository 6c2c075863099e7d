/** The server's HTTP API as typed calls. Whatever goes wrong comes back as a sentence for people. */
import * as v from "valibot";
import type { Id } from "#shared/board/ids.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";
import {
  API_ERRORS,
  type ApiErrorCode,
  type BoardGrant,
  type CreateLink,
  type Link,
  type NewLink,
  ROLES,
  type Session,
} from "#shared/protocol/api.ts";

/** Why a call did not work out. */
export interface ApiProblem {
  /** The server's own code; `offline` when it could not be reached, `unreadable` when its answer makes no sense. */
  readonly code: ApiErrorCode | "offline" | "unreadable";
  /** One sentence that says what to do. */
  readonly message: string;
  /** True when the same call may work later. */
  readonly retriable: boolean;
}

type Answer<T> = Promise<Result<T, ApiProblem>>;

export interface Api {
  /** A new board, with this device as its leader. */
  readonly createBoard: (name: string) => Answer<BoardGrant>;
  /** Exchanges a link's secret for a token of this device. */
  readonly join: (secret: string) => Answer<BoardGrant>;
  readonly session: (token: string) => Answer<Session>;
  /** Says which person of the board this device belongs to. */
  readonly claimMember: (token: string, memberId: Id) => Answer<Session>;
  /** Links into the board, oldest first; for leaders. */
  readonly links: (token: string) => Answer<readonly Link[]>;
  readonly createLink: (token: string, wanted: CreateLink) => Answer<NewLink>;
  readonly revokeLink: (token: string, link: Id) => Answer<null>;
  readonly openDemo: () => Answer<BoardGrant>;
  /** Starts the demo afresh, for everybody who is in it. */
  readonly resetDemo: (token: string) => Answer<BoardGrant>;
}

export interface ApiOptions {
  /** Scheme, host and port; empty = the page's own server. */
  readonly origin?: string;
  readonly fetch?: typeof globalThis.fetch;
  /** How long (ms) a call may take. */
  readonly timeoutMs?: number;
}

const TIMEOUT_MS = 15_000;

const role = v.picklist(ROLES);
const moment = v.nullable(v.number());
const grant = v.object({
  board: v.string(),
  document: v.string(),
  token: v.string(),
  role,
  boardName: v.string(),
  memberId: v.nullable(v.string()),
  expiresAt: moment,
});
const session = v.object({
  board: v.string(),
  document: v.string(),
  season: v.number(),
  device: v.string(),
  role,
  memberId: v.nullable(v.string()),
  name: v.string(),
  confirmed: v.boolean(),
  expiresAt: moment,
});
const newLink = v.object({ id: v.string(), board: v.string(), secret: v.string(), role });
const linkList = v.object({
  links: v.array(
    v.object({
      id: v.string(),
      role,
      label: v.string(),
      createdAt: v.number(),
      expiresAt: moment,
      revokedAt: moment,
      maxUses: v.nullable(v.number()),
      uses: v.number(),
      memberId: v.nullable(v.string()),
      gig: v.nullable(v.string()),
    }),
  ),
});
const nothing = v.pipe(
  v.unknown(),
  v.transform(() => null),
);

const OFFLINE: ApiProblem = {
  code: "offline",
  message: "The server cannot be reached. Check the connection and try again.",
  retriable: true,
};
const UNREADABLE: ApiProblem = {
  code: "unreadable",
  message: "The server's answer cannot be read. Reload the page and try again.",
  retriable: false,
};

const isApiErrorCode = (code: unknown): code is ApiErrorCode =>
  typeof code === "string" && Object.hasOwn(API_ERRORS, code);

/** The problem that a refusing answer describes; a proxy in between may answer without our body. */
const problemOf = (status: number, body: unknown): ApiProblem => {
  const named = typeof body === "object" && body !== null && "error" in body ? body.error : null;
  const retriable = status === 429 || status >= 500;
  if (isApiErrorCode(named)) return { code: named, message: API_ERRORS[named].message, retriable };
  const code: ApiErrorCode | "unreadable" =
    status === 401 ? "unknown-device"
    : status === 404 ? "not-found"
    : status === 410 ? "link-revoked"
    : status === 413 ? "too-large"
    : status === 429 ? "too-many"
    : status >= 500 ? "server-mistake"
    : "unreadable"; // biome-ignore format: one table
  return code === "unreadable" ? UNREADABLE : { code, message: API_ERRORS[code].message, retriable };
};

const bodyOf = async (response: Response): Promise<unknown> => {
  const text = await response.text();
  try {
    return text === "" ? null : JSON.parse(text);
  } catch {
    return undefined;
  }
};

/** What a header can carry. A link that was mangled on its way must not look like a broken network. */
const isBearer = (text: string): boolean => /^[\w~+/.=-]{1,200}$/.test(text);

const refusal = (code: ApiErrorCode): ApiProblem => ({
  code,
  message: API_ERRORS[code].message,
  retriable: false,
});

/** Opens the API. */
export const createApi = (options: ApiOptions = {}): Api => {
  const { origin = "", timeoutMs = TIMEOUT_MS } = options;
  const send = options.fetch ?? globalThis.fetch.bind(globalThis);

  const call = async <T>(
    schema: v.GenericSchema<unknown, T>,
    method: "GET" | "POST" | "DELETE",
    path: string,
    { bearer, body }: { readonly bearer?: string; readonly body?: object } = {},
  ): Answer<T> => {
    if (bearer !== undefined && !isBearer(bearer)) return err(refusal("unknown-device"));
    const headers: Record<string, string> = {
      ...(bearer === undefined ? {} : { authorization: `Bearer ${bearer}` }),
      ...(body === undefined ? {} : { "content-type": "application/json" }),
    };
    let response: Response;
    let answer: unknown;
    try {
      const signal = AbortSignal.timeout(timeoutMs);
      const request: RequestInit = { method, headers, signal, cache: "no-store", credentials: "omit" };
      if (body !== undefined) request.body = JSON.stringify(body);
      response = await send(origin + path, request);
      answer = await bodyOf(response);
    } catch {
      return err(OFFLINE);
    }
    if (!response.ok) return err(problemOf(response.status, answer));
    const parsed = v.safeParse(schema, answer);
    return parsed.success ? ok(parsed.output) : err(UNREADABLE);
  };

  return {
    createBoard: (name) => call(grant, "POST", "/api/boards", { body: { name } }),
    join: async (secret) =>
      isBearer(secret) ? call(grant, "POST", "/api/join", { bearer: secret }) : err(refusal("unknown-link")),
    session: (bearer) => call(session, "GET", "/api/session", { bearer }),
    claimMember: (bearer, memberId) =>
      call(session, "POST", "/api/session/member", { bearer, body: { memberId } }),
    links: async (bearer) => {
      const answer = await call(linkList, "GET", "/api/links", { bearer });
      return answer.ok ? ok(answer.value.links) : answer;
    },
    createLink: (bearer, wanted) => call(newLink, "POST", "/api/links", { bearer, body: wanted }),
    revokeLink: (bearer, link) =>
      call(nothing, "DELETE", `/api/links/${encodeURIComponent(link)}`, { bearer }),
    openDemo: () => call(grant, "POST", "/api/demo"),
    resetDemo: (bearer) => call(grant, "POST", "/api/demo/reset", { bearer }),
  };
};
