/** The server's HTTP API as typed calls. Whatever goes wrong comes back as a sentence for people. */
import * as v from "valibot";
import type { Id } from "#shared/board/ids.ts";
import { err, ok, type Result } from "#shared/lib/result.ts";
import type {
  BoardGrant,
  ChangeDevice,
  CreateLink,
  DeviceInfo,
  Link,
  NewBoardGrant,
  NewLink,
  PrivateValues,
  SeasonClosed,
  SeasonInfo,
  Session,
} from "#shared/protocol/api.ts";
import { API_ERRORS, type ApiErrorCode } from "#shared/protocol/api-errors.ts";
import type { SentRow } from "#shared/protocol/history-rows.ts";
import { parseRecoveryCode } from "#shared/protocol/recovery-code.ts";
import * as answers from "./api-answers.ts";
import { type ApiProblem, OFFLINE, UNREADABLE } from "./api-problem.ts";

type Answer<T> = Promise<Result<T, ApiProblem>>;

/** Rows between `after` and `before`, of them the last `limit`; or what folds to the document after row `state`. */
export interface HistoryQuery {
  readonly after?: number;
  readonly before?: number;
  readonly limit?: number;
  readonly state?: number;
}

export interface Api {
  /** A new board, with this device as its leader. */
  readonly createBoard: (name: string) => Answer<NewBoardGrant>;
  /** Exchanges a link's secret for a token of this device. */
  readonly join: (secret: string) => Answer<BoardGrant>;
  /** Exchanges a recovery code, as somebody typed it, for a leader's token and a new code. */
  readonly recover: (code: string) => Answer<NewBoardGrant>;
  /** A new recovery code; the one before is void. */
  readonly newRecoveryCode: (token: string) => Answer<string>;
  readonly session: (token: string) => Answer<Session>;
  /** Says which person of the board this device belongs to. */
  readonly claimMember: (token: string, memberId: Id) => Answer<Session>;
  /** Links into the board, oldest first; for leaders. */
  readonly links: (token: string) => Answer<readonly Link[]>;
  readonly createLink: (token: string, wanted: CreateLink) => Answer<NewLink>;
  /** Withdraws a link, and with `andDevices` removes the devices that came in by it. */
  readonly revokeLink: (token: string, link: Id, andDevices?: boolean) => Answer<null>;
  readonly devices: (token: string) => Answer<readonly DeviceInfo[]>;
  readonly changeDevice: (token: string, device: Id, changes: ChangeDevice) => Answer<DeviceInfo>;
  readonly removeDevice: (token: string, device: Id) => Answer<null>;
  readonly privateValues: (token: string) => Answer<PrivateValues["values"]>;
  readonly setPrivate: (token: string, key: string, value: unknown) => Answer<null>;
  readonly seasons: (token: string) => Answer<readonly SeasonInfo[]>;
  readonly closeSeason: (token: string, document: Id) => Answer<SeasonClosed>;
  /** How far these Yjs clients' changes got into a closed document. */
  readonly durableIn: (
    token: string,
    document: Id,
    clients: readonly number[],
  ) => Answer<ReadonlyMap<number, number>>;
  readonly erasePerson: (token: string, member: Id) => Answer<SeasonClosed>;
  readonly eraseBoard: (token: string, name: string) => Answer<null>;
  readonly history: (token: string, document: Id, query: HistoryQuery) => Answer<readonly SentRow[]>;
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
  /** What this device calls itself when it comes in; empty = nothing. */
  readonly deviceName?: string;
}

const TIMEOUT_MS = 15_000;

const isApiErrorCode = (code: unknown): code is ApiErrorCode =>
  typeof code === "string" && Object.hasOwn(API_ERRORS, code);

/** The problem that a refusing answer describes; a proxy in between may answer without our body. */
export const problemOf = (status: number, body: unknown): ApiProblem => {
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

/** The body as JSON or bytes; undefined where it is neither. */
export const bodyOf = async (response: Response): Promise<unknown> => {
  const binary = response.headers.get("content-type")?.startsWith("application/octet-stream") ?? false;
  if (response.ok && binary) return new Uint8Array(await response.arrayBuffer());
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

const segment = encodeURIComponent;

/** Opens the API. */
export const createApi = (options: ApiOptions = {}): Api => {
  const { origin = "", timeoutMs = TIMEOUT_MS, deviceName = "" } = options;
  const send = options.fetch ?? globalThis.fetch.bind(globalThis);

  const call = async <T>(
    schema: v.GenericSchema<unknown, T>,
    method: "GET" | "POST" | "PUT" | "PATCH" | "DELETE",
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
  const arrival = deviceName === "" ? {} : { deviceName };

  return {
    createBoard: (name) => call(answers.NEW_GRANT, "POST", "/api/boards", { body: { name, ...arrival } }),
    join: async (secret) =>
      isBearer(secret)
        ? call(answers.GRANT, "POST", "/api/join", { bearer: secret, body: arrival })
        : err(refusal("unknown-link")),
    recover: async (typed) => {
      const code = parseRecoveryCode(typed);
      return code === null
        ? err(refusal("unknown-code"))
        : call(answers.NEW_GRANT, "POST", "/api/recover", { bearer: code, body: arrival });
    },
    newRecoveryCode: async (bearer) =>
      picked(await call(answers.RECOVERY_CODE, "POST", "/api/recovery", { bearer }), "recoveryCode"),
    session: (bearer) => call(answers.SESSION, "GET", "/api/session", { bearer }),
    claimMember: (bearer, memberId) =>
      call(answers.SESSION, "POST", "/api/session/member", { bearer, body: { memberId } }),
    links: async (bearer) => picked(await call(answers.LINK_LIST, "GET", "/api/links", { bearer }), "links"),
    createLink: (bearer, wanted) => call(answers.NEW_LINK, "POST", "/api/links", { bearer, body: wanted }),
    revokeLink: (bearer, link, andDevices = false) =>
      call(answers.NOTHING, "DELETE", `/api/links/${segment(link)}${andDevices ? "?devices=1" : ""}`, {
        bearer,
      }),
    devices: async (bearer) =>
      picked(await call(answers.DEVICE_LIST, "GET", "/api/devices", { bearer }), "devices"),
    changeDevice: (bearer, device, changes) =>
      call(answers.DEVICE, "PATCH", `/api/devices/${segment(device)}`, { bearer, body: changes }),
    removeDevice: (bearer, device) =>
      call(answers.NOTHING, "DELETE", `/api/devices/${segment(device)}`, { bearer }),
    privateValues: async (bearer) =>
      picked(await call(answers.PRIVATE_VALUES, "GET", "/api/private", { bearer }), "values"),
    setPrivate: (bearer, key, value) =>
      call(answers.NOTHING, "PUT", `/api/private/${segment(key)}`, { bearer, body: { value } }),
    seasons: async (bearer) =>
      picked(await call(answers.SEASON_LIST, "GET", "/api/seasons", { bearer }), "seasons"),
    closeSeason: (bearer, document) =>
      call(answers.SEASON_CLOSED, "POST", "/api/seasons", { bearer, body: { document } }),
    durableIn: async (bearer, document, clients) => {
      const path = `/api/seasons/${segment(document)}/durable`;
      const answer = await call(answers.DURABLE, "POST", path, { bearer, body: { clients } });
      if (!answer.ok) return answer;
      return ok(new Map(answer.value.clocks.map(({ client, clock }) => [client, clock])));
    },
    erasePerson: (bearer, member) =>
      call(answers.SEASON_CLOSED, "POST", `/api/people/${segment(member)}/erase`, { bearer }),
    eraseBoard: (bearer, name) =>
      call(answers.NOTHING, "POST", "/api/board/erase", { bearer, body: { name } }),
    history: (bearer, document, query) =>
      call(answers.HISTORY, "GET", `/api/history/${segment(document)}${search(query)}`, { bearer }),
    openDemo: () => call(answers.GRANT, "POST", "/api/demo"),
    resetDemo: (bearer) => call(answers.GRANT, "POST", "/api/demo/reset", { bearer }),
  };
};

const picked = <T, K extends keyof T>(answer: Result<T, ApiProblem>, key: K): Result<T[K], ApiProblem> =>
  answer.ok ? ok(answer.value[key]) : answer;

const search = (query: HistoryQuery): string => {
  const pairs = Object.entries(query).filter(([, value]) => value !== undefined);
  return pairs.length === 0 ? "" : `?${pairs.map(([key, value]) => `${key}=${value}`).join("&")}`;
};
