import type { Id } from "#shared/board/ids.ts";
import type { Role } from "#shared/protocol/api.ts";
import type { ApiErrorCode } from "#shared/protocol/api-errors.ts";
import type { CloseCode } from "#shared/protocol/close-codes.ts";

/** A device on a board, as the server knows it from its token. */
export interface DeviceSession {
  readonly board: Id;
  /** The document of the season that is open. */
  readonly document: Id;
  readonly season: number;
  readonly device: Id;
  readonly role: Role;
  /** The person of the board this device belongs to; null until it was bound. */
  readonly memberId: Id | null;
  readonly boardName: string;
  /** True when it may read what is private to its person. */
  readonly confirmed: boolean;
  /** The one gig a dep's device is for. */
  readonly gig: Id | null;
  readonly expiresAt: number | null;
}

/** Why a token opens nothing. */
export type AccessRefusal =
  | "unknown-device"
  | "device-removed"
  | "way-in-ended"
  | "no-such-board"
  | "season-closed"
  | "board-erased"
  | "demo-restarted";

export type Admission =
  | { readonly ok: true; readonly session: DeviceSession }
  | { readonly ok: false; readonly refusal: AccessRefusal };

/**
 * Decides who may do what, for the sync socket and the HTTP API alike. Given to the server from outside, so that tests
 * and benchmarks compose the real server with another policy instead of a switch in the product.
 */
export interface AccessPolicy {
  /** `document` is the one that was asked for; null = the one that is open on the token's board. */
  admit(token: string | null, document: Id | null): Promise<Admission>;
}

/** What a refusal looks like on a socket and over HTTP. */
export const REFUSALS: Readonly<
  Record<AccessRefusal, { readonly close: CloseCode; readonly api: ApiErrorCode }>
> = {
  "unknown-device": { close: 4401, api: "unknown-device" },
  "device-removed": { close: 4411, api: "device-removed" },
  "way-in-ended": { close: 4412, api: "way-in-ended" },
  "no-such-board": { close: 4404, api: "unknown-device" },
  "season-closed": { close: 4409, api: "season-closed" },
  "board-erased": { close: 4415, api: "board-erased" },
  "demo-restarted": { close: 4410, api: "demo-restarted" },
};
