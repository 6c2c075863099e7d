import type { Id } from "../board/ids.ts";

/**
 * The HTTP API in types. All bodies are JSON; a device token or a link's secret travels as `Authorization: Bearer …`,
 * never in an address.
 *
 *     POST   /api/boards           CreateBoard  → 201 BoardGrant
 *     POST   /api/join             (secret)     → 201 BoardGrant
 *     GET    /api/session          (token)      → 200 Session
 *     POST   /api/session/member   BindMember   → 200 Session
 *     GET    /api/links            (leader)     → 200 LinkList
 *     POST   /api/links            CreateLink   → 201 NewLink
 *     DELETE /api/links/:id        (leader)     → 204
 *     POST   /api/demo             (nobody)     → 201 BoardGrant
 *     POST   /api/demo/reset       (demo token) → 201 BoardGrant
 *     GET    /healthz                           → 200 | 503 Health
 */

/** Leaders and members write; guests read. */
export type Role = "leader" | "member" | "guest";

export const ROLES = ["leader", "member", "guest"] as const satisfies readonly Role[];

/** A device's way in: keep the token on the device. `board` is the room's name under the sync path. */
export interface BoardGrant {
  readonly board: Id;
  readonly token: string;
  readonly role: Role;
  /** The name the board was created with; the document holds the current one. */
  readonly boardName: string;
}

export interface CreateBoard {
  readonly name: string;
}

export interface Session {
  readonly board: Id;
  readonly role: Role;
  /** The person of the board this device belongs to; null until it was bound. */
  readonly memberId: Id | null;
  /** The name the board was created with. */
  readonly name: string;
}

export interface BindMember {
  readonly memberId: Id;
}

export interface CreateLink {
  readonly role: Role;
  /** Moment (ms) after which nobody can join by it; absent = never. */
  readonly expiresAt?: number | undefined;
  /** The leader's own note. */
  readonly label?: string | undefined;
}

/** The only time the secret is shown. It belongs in an address's fragment: `/#/join/<board>/<secret>`. */
export interface NewLink {
  readonly id: Id;
  readonly board: Id;
  readonly secret: string;
  readonly role: Role;
}

export interface Link {
  readonly id: Id;
  readonly role: Role;
  readonly label: string;
  readonly createdAt: number;
  readonly expiresAt: number | null;
  readonly revokedAt: number | null;
}

export interface LinkList {
  readonly links: readonly Link[];
}

export interface Health {
  readonly status: "ok" | "not-storing";
  /** Boards in memory. */
  readonly boards: number;
  readonly connections: number;
}

/** Every refusal: the HTTP status and one sentence for people. */
export const API_ERRORS = {
  "bad-request": { status: 400, message: "The server could not read this request." },
  "unknown-device": {
    status: 401,
    message: "This device is not known to the board. Open your joining link again.",
  },
  "leaders-only": { status: 403, message: "Only a leader of the board can do this." },
  "guests-look": { status: 403, message: "This link only lets you look at the board." },
  "other-origin": { status: 403, message: "Another site's page may not use this server." },
  "creating-disabled": { status: 403, message: "This server does not let visitors create boards." },
  "not-found": { status: 404, message: "There is nothing at this address." },
  "no-demo": { status: 404, message: "This server has no demo band." },
  "unknown-link": {
    status: 404,
    message: "This link is not known. Check that you copied all of it, or ask for a new one.",
  },
  "wrong-method": { status: 405, message: "This address does not take that kind of request." },
  "link-expired": { status: 410, message: "This link has expired. Ask the band's leader for a new one." },
  "link-revoked": { status: 410, message: "This link was withdrawn. Ask the band's leader for a new one." },
  "demo-restarted": { status: 410, message: "The demo was started afresh. Open it again to go on." },
  "too-large": { status: 413, message: "This request is larger than the server takes." },
  "not-json": { status: 415, message: "The request must be JSON." },
  "too-many": { status: 429, message: "Too many tries from this address. Wait a minute and try again." },
  "server-mistake": { status: 500, message: "The server made a mistake. Try again." },
  "not-stored": { status: 503, message: "The server cannot store anything at the moment. Try again later." },
} as const satisfies Record<string, { readonly status: number; readonly message: string }>;

export type ApiErrorCode = keyof typeof API_ERRORS;

/** Body of every refusal. */
export interface ApiError {
  readonly error: ApiErrorCode;
  readonly message: string;
}
