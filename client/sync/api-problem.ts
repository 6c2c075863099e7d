/** What can be wrong with a call to the server. */
import type { ApiErrorCode } from "#shared/protocol/api-errors.ts";

/** Why a call did not work out. */
export interface ApiProblem {
  /** The server's own code; `offline` when it could not be reached, `unreadable` when its answer makes no sense. */
  readonly code: ApiErrorCode | "offline" | "unreadable";
  /** One sentence that says what to do. */
  readonly message: string;
  /** True when the same call may work later. */
  readonly retriable: boolean;
}

/** Nobody answered. */
export const OFFLINE: ApiProblem = {
  code: "offline",
  message: "The server cannot be reached. Check the connection and try again.",
  retriable: true,
};
/** Somebody answered what makes no sense. */
export const UNREADABLE: ApiProblem = {
  code: "unreadable",
  message: "The server's answer cannot be read. Reload the page and try again.",
  retriable: false,
};
