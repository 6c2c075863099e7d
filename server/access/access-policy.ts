import type { Id } from "#shared/board/ids.ts";
import type { ApiErrorCode, Role } from "#shared/protocol/api.ts";
import type { CloseCode } from "#shared/protocol/close-codes.ts";

/** A device on a board, as the server knows it from its token. */
export interface DeviceSession {
  readonly board: Id;
  readonly device: Id;
  readonly role: Role;
  /** The person of the board this device belongs to; null until it was bound. */
  readonly memberId: Id | null;
  readonly boardName: string;
}

/** Why a token opens nothing. */
export type AccessRefusal = "unknown-device" | "no-such-board" | "demo-restarted";

export type Admission =
  | { readonly ok: true; readonly session: DeviceSession }
  | { readonly ok: false; readonly refusal: AccessRefusal };

/**
 * Decides who may do what, for the sync socket and the HTTP API alike. Given to the server from outside, so that tests
 * and benchmarks compose the real server with another policy instead of a switch in the product.
 */
export interface AccessPolicy {
  /** `board` is the one that was asked for; null = the one the token belongs to. */
  admit(token: string | null, board: Id | null): Promise<Admission>;
}

/** What a refusal looks like on a socket and over HTTP. */
export const REFUSALS: Readonly<
  Record<AccessRefusal, { readonly close: CloseCode; readonly api: ApiErrorCode }>
> = {
  "unknown-device": { close: 4401, api: "unknown-device" },
  "no-such-board": { close: 4404, api: "unknown-device" },
  "demo-restarted": { close: 4410, api: "demo-restarted" },
};
