import { onTestFinished } from "vitest";
import WebSocket from "ws";
import { offeredSubprotocols } from "#shared/protocol/version.ts";

/** A bare WebSocket that sends whatever bytes a test wants, and keeps what comes back. */
export interface RawClient {
  readonly ws: WebSocket;
  readonly frames: Uint8Array[];
  send(frame: Uint8Array | readonly number[]): void;
  /** The first frame, past or future, that begins with these bytes. */
  frame(...beginning: number[]): Promise<Uint8Array>;
  readonly closed: Promise<{ readonly code: number; readonly reason: string }>;
}

export interface RawOptions {
  readonly protocols?: string[];
  readonly headers?: Record<string, string>;
  /** False = never answers a ping, like a phone that lost its signal. */
  readonly autoPong?: boolean;
}

/** Resolves once the socket is open; rejects when the server refuses the upgrade. */
export const connectRaw = async (
  url: string,
  token: string,
  options: RawOptions = {},
): Promise<RawClient> => {
  const ws = new WebSocket(url, options.protocols ?? offeredSubprotocols(token), {
    headers: options.headers ?? {},
    autoPong: options.autoPong ?? true,
  });
  onTestFinished(() => ws.terminate());
  const frames: Uint8Array[] = [];
  const waiting = new Set<(frame: Uint8Array) => void>();
  ws.on("message", (data: Buffer) => {
    const frame = Uint8Array.from(data);
    frames.push(frame);
    for (const look of waiting) look(frame);
  });
  const closed = new Promise<{ code: number; reason: string }>((resolve) =>
    ws.on("close", (code, reason) => resolve({ code, reason: reason.toString() })),
  );
  await new Promise<void>((resolve, reject) => {
    ws.once("open", () => resolve());
    ws.once("error", reject);
  });
  ws.on("error", () => undefined);
  return {
    ws,
    frames,
    closed,
    send: (frame) => ws.send(frame instanceof Uint8Array ? frame : Uint8Array.from(frame)),
    frame: (...beginning) =>
      new Promise((resolve) => {
        const look = (frame: Uint8Array): void => {
          if (!beginning.every((byte, at) => frame[at] === byte)) return;
          waiting.delete(look);
          resolve(frame);
        };
        waiting.add(look);
        for (const frame of frames) look(frame);
      }),
  };
};
