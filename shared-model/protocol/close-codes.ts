/**
 * Why a connection was closed: one table for server and client.
 * Governing rule: codes from 4400 to 4499, and 1009, mean that trying again cannot help; every other code may be
 * retried; `isRetriable` (retriable.ts) is that rule. The stock sync provider stops reconnecting on 4400 to 4499 by itself.
 * 1001, 1009, 1011, 1012 and 1013 are registered by RFC 6455 and the IANA WebSocket close code registry.
 */

export interface CloseReason {
  /** Stable name for logs and tests; also sent as the close frame's reason. */
  readonly name: string;
  /** One sentence for people. */
  readonly sentence: string;
  /** True when the client should connect again by itself. */
  readonly retriable: boolean;
}

export const CLOSE_CODES = {
  1001: {
    name: "going-away",
    sentence: "The server is stopping. Your changes stay on this device and are sent when it is back.",
    retriable: true,
  },
  1009: {
    name: "far-too-large",
    sentence: "This device sent far more at once than the server takes.",
    retriable: false,
  },
  1011: {
    name: "server-mistake",
    sentence: "The server made a mistake. Your changes stay on this device; it connects again by itself.",
    retriable: true,
  },
  1012: {
    name: "restarting",
    sentence: "The server is restarting. Your changes stay on this device and are sent when it is back.",
    retriable: true,
  },
  1013: {
    name: "too-slow",
    sentence: "The connection was too slow to keep up. It connects again by itself.",
    retriable: true,
  },
  4400: {
    name: "malformed",
    sentence: "This device sent something the server could not read. Reload the page.",
    retriable: false,
  },
  4401: {
    name: "unknown-device",
    sentence: "This device is not known to the board. Open your joining link again.",
    retriable: false,
  },
  4403: {
    name: "read-only",
    sentence: "This link only lets you look at the board. Ask for a joining link to change it.",
    retriable: false,
  },
  4404: {
    name: "no-such-board",
    sentence: "There is no board at this address.",
    retriable: false,
  },
  4409: {
    name: "season-closed",
    sentence: "The leader has closed the season. The board goes on in a fresh document.",
    retriable: false,
  },
  4410: {
    name: "demo-restarted",
    sentence: "The demo was started afresh. Open it again to go on.",
    retriable: false,
  },
  4411: {
    name: "device-removed",
    sentence:
      "A leader has removed this device from the board. What was not sent stays here; ask for a new link to send it.",
    retriable: false,
  },
  4412: {
    name: "way-in-ended",
    sentence:
      "This device's time on the board is over. What was not sent stays here; ask for a new link to send it.",
    retriable: false,
  },
  4413: {
    name: "too-large",
    sentence: "This change is larger than the server takes at once.",
    retriable: false,
  },
  4414: {
    name: "board-full",
    sentence:
      "This board has reached the size this server allows. Changes stay on this device; ask whoever runs the server.",
    retriable: false,
  },
  4415: {
    name: "board-erased",
    sentence: "This board was erased by its leader.",
    retriable: false,
  },
  4416: {
    name: "own-gig-only",
    sentence: "A dep's link shows one gig and nothing else of the board.",
    retriable: false,
  },
  4422: {
    name: "incomplete",
    sentence: "Something this device sent before is missing. Reload the page; what was not sent stays here.",
    retriable: false,
  },
  4426: {
    name: "other-version",
    sentence: "This page and the server speak different versions. Reload the page.",
    retriable: false,
  },
  4507: {
    name: "not-stored",
    sentence: "The server could not store this change, so it stays on this device and is sent again.",
    retriable: true,
  },
  4508: {
    name: "role-changed",
    sentence: "What this device may do on the board has changed. It connects again by itself.",
    retriable: true,
  },
  4529: {
    name: "too-fast",
    sentence: "This device sent more at once than the server takes. It goes on by itself in a moment.",
    retriable: true,
  },
  4530: {
    name: "too-many-connections",
    sentence: "Too many devices are connected at the moment. It connects again by itself.",
    retriable: true,
  },
} as const satisfies Record<number, CloseReason>;

/** A code this project closes connections with. */
export type CloseCode = keyof typeof CLOSE_CODES;

/** What a close code means; null for codes that are not ours, such as 1006 (the network broke). */
export const closeReason = (code: number): CloseReason | null =>
  Object.hasOwn(CLOSE_CODES, code) ? CLOSE_CODES[code as CloseCode] : null;
