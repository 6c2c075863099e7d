import type { FrameSocket } from "#server/rooms/frame-socket.ts";
import type { CloseCode } from "#shared/protocol/close-codes.ts";

/** The server's end of a connection without a network: keeps what is sent, and can be made slow. */
export interface FakeFrameSocket extends FrameSocket {
  bufferedAmount: number;
  readonly sent: Uint8Array[];
  closedWith: CloseCode | null;
}

export const createFakeFrameSocket = (): FakeFrameSocket => {
  const socket: FakeFrameSocket = {
    bufferedAmount: 0,
    sent: [],
    closedWith: null,
    send: (frame) => void socket.sent.push(frame),
    close(code) {
      socket.closedWith ??= code;
    },
  };
  return socket;
};
