import type { CloseCode } from "#shared/protocol/close-codes.ts";

/** The server's end of a connection, whatever carries it: a WebSocket, or a test's own pair of queues. */
export interface FrameSocket {
  /** Bytes handed to `send` that have not left yet. */
  readonly bufferedAmount: number;
  send(frame: Uint8Array): void;
  /** Begins to close. Frames that still arrive are ignored by the connection. */
  close(code: CloseCode, reason: string): void;
}
