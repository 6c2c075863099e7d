import type { Id } from "../board/ids.ts";

/**
 * The HTTP API in types. Bodies are JSON unless said otherwise; a device token, a link's secret or a recovery code
 * travels as `Authorization: Bearer …`, never in an address.
 *
 *     POST   /api/boards           CreateBoard  → 201 NewBoardGrant
 *     POST   /api/join   (secret)  Arrival      → 201 BoardGrant
 *     POST   /api/recover (code)   Arrival      → 201 NewBoardGrant
 *     POST   /api/recovery         (leader)     → 201 RecoveryCode
 *     GET    /api/session          (token)      → 200 Session
 *     POST   /api/session/member   BindMember   → 200 Session
 *     GET    /api/links            (leader)     → 200 LinkList
 *     POST   /api/links            CreateLink   → 201 NewLink
 *     DELETE /api/links/:id        (leader)     → 204; `?devices=1` also removes the devices that came in by it
 *     GET    /api/devices          (token)      → 200 DeviceList
 *     PATCH  /api/devices/:id      ChangeDevice → 200 DeviceInfo
 *     DELETE /api/devices/:id      (token)      → 204
 *     GET    /api/private          (token)      → 200 PrivateValues
 *     PUT    /api/private/:id      SetPrivate   → 204
 *     GET    /api/seasons          (leader)     → 200 SeasonList
 *     POST   /api/seasons          CloseSeason  → 201 SeasonClosed
 *     POST   /api/seasons/:id/durable AskDurable → 200 Durable; `:id` = a closed season's document
 *     POST   /api/people/:id/erase (leader)     → 201 SeasonClosed
 *     POST   /api/board/erase      EraseBoard   → 204
 *     GET    /api/history/:id      (leader)     → 200 history rows, binary (history-rows.ts); `:id` = a season's
 *                                                 document, `?after=&before=&limit=` = the last rows in between,
 *                                                 `?state=` = what folds to the document right after that row
 *     GET    /api/gig              (dep)        → 200 DepGig
 *     POST   /api/gig/answers      DepAnswers   → 200 DepAnswered
 *     POST   /api/demo             (nobody)     → 201 BoardGrant
 *     POST   /api/demo/reset       (demo token) → 201 BoardGrant
 *     GET    /healthz                           → 200 | 503 Health
 *     GET    /metrics                           → 200 Prometheus text
 */

/** Leaders and members write; guests read; a dep sees one gig and answers, without ever having the board. */
export type Role = "leader" | "member" | "guest" | "dep";

export const ROLES = ["leader", "member", "guest", "dep"] as const satisfies readonly Role[];

/** A device's way in: keep the token on the device. */
export interface BoardGrant {
  readonly board: Id;
  /** The document of the open season: the room's name under the sync path. */
  readonly document: Id;
  readonly token: string;
  readonly role: Role;
  /** The name the board was created with; the document holds the current one. */
  readonly boardName: string;
  /** The person a personal link is for; null = pick a name. */
  readonly memberId: Id | null;
  /** Moment (ms) at which this way in ends by itself; null = never. */
  readonly expiresAt: number | null;
}

/** For the leader alone, shown once: it lets them in again when every device is lost. */
export interface RecoveryCode {
  readonly recoveryCode: string;
}

export interface NewBoardGrant extends BoardGrant, RecoveryCode {}

/** What a device says about itself when it comes in. */
export interface Arrival {
  /** What the leader reads in the list of devices, such as "Phone, Firefox". */
  readonly deviceName?: string | undefined;
}

export interface CreateBoard extends Arrival {
  readonly name: string;
}

export interface Session {
  readonly board: Id;
  /** The document of the open season. */
  readonly document: Id;
  readonly season: number;
  readonly device: Id;
  readonly role: Role;
  /** The person of the board this device belongs to; null until it was bound. */
  readonly memberId: Id | null;
  /** The name the board was created with. */
  readonly name: string;
  /** True when this device may read what is private to its person. */
  readonly confirmed: boolean;
  readonly expiresAt: number | null;
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
  /** How many devices may come in by it; absent = any number. */
  readonly maxUses?: number | undefined;
  /** The person whose devices come in by it. Members may make such a link for themselves. Needed for a dep. */
  readonly memberId?: Id | undefined;
  /** The one gig a dep's link is for. */
  readonly gig?: Id | undefined;
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
  readonly maxUses: number | null;
  readonly uses: number;
  readonly memberId: Id | null;
  readonly gig: Id | null;
}

export interface LinkList {
  readonly links: readonly Link[];
}

export interface DeviceInfo {
  readonly id: Id;
  readonly role: Role;
  readonly memberId: Id | null;
  readonly name: string;
  readonly createdAt: number;
  readonly lastSeenAt: number | null;
  readonly expiresAt: number | null;
  /** The link it came in by. */
  readonly link: Id | null;
  readonly confirmed: boolean;
  /** True for the device that asks. */
  readonly own: boolean;
  /** True while it is connected. */
  readonly here: boolean;
}

/** Devices that were not removed, oldest first: all for a leader, those of one's own person for a member. */
export interface DeviceList {
  readonly devices: readonly DeviceInfo[];
}

export interface ChangeDevice {
  /** Leaders only. */
  readonly role?: Role | undefined;
  /** Leaders, or another confirmed device of the same person. */
  readonly confirmed?: boolean | undefined;
  readonly name?: string | undefined;
}

/** Values only the person's own confirmed devices can read. */
export interface PrivateValues {
  readonly values: readonly { readonly key: string; readonly value: unknown; readonly at: number }[];
}

export interface SetPrivate {
  /** Anything JSON can say; null takes the value away. */
  readonly value: unknown;
}

export interface SeasonInfo {
  readonly document: Id;
  readonly season: number;
  readonly openedAt: number;
  readonly closedAt: number | null;
  /** Bytes of the document and of its archive. */
  readonly bytes: number;
  readonly archivedBytes: number;
}

export interface SeasonList {
  readonly seasons: readonly SeasonInfo[];
}

/** The season the leader means to close: closing twice by mistake closes once. */
export interface CloseSeason {
  readonly document: Id;
}

export interface SeasonClosed {
  readonly document: Id;
  readonly season: number;
  /** Bytes of the document before and after. */
  readonly bytesBefore: number;
  readonly bytesAfter: number;
}

/** Yjs client ids whose changes this device was not told to be safe before the season was closed. */
export interface AskDurable {
  readonly clients: readonly number[];
}

/** How far each client's changes are in the closed document: what is below is part of the new one. */
export interface Durable {
  readonly clocks: readonly { readonly client: number; readonly clock: number }[];
}

/** The band's name as the leader types it, to be sure. */
export interface EraseBoard {
  readonly name: string;
}

export interface Health {
  readonly status: "ok" | "not-storing";
  /** Boards in memory. */
  readonly boards: number;
  readonly connections: number;
}
