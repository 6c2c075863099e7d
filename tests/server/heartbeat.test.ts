import { expect, test } from "vitest";
import { Awareness, applyAwarenessUpdate } from "y-protocols/awareness";
import * as Y from "yjs";
import { decodeFrame } from "#server/rooms/frames.ts";
import { openAccess } from "#tests/support/open-access.ts";
import { connectRaw } from "#tests/support/raw-client.ts";
import { defaultSettings, startTestServer } from "#tests/support/test-server.ts";

const quickServer = () => startTestServer({ access: () => openAccess, settings: { heartbeatSeconds: 0.05 } });

test("a quiet connection hears something now and then, and it changes nothing", async () => {
  const server = await quickServer();
  const member = await connectRaw(`${server.syncUrl}/fuses`, "member");
  // y-websocket 3.1 closes a connection on which no message came for 30 s; pings do not count as messages there.
  const frame = decodeFrame(await member.frame(1));
  if (frame.kind !== "awareness") throw new Error("a frame of type 1 is awareness");
  const awareness = new Awareness(new Y.Doc());
  let changes = 0;
  awareness.on("update", () => {
    changes += 1;
  });
  applyAwarenessUpdate(awareness, frame.bytes, null);
  expect(changes).toBe(0);
  awareness.destroy();
});

test("the default leaves a client's 30 seconds of patience a margin", () => {
  expect(defaultSettings().heartbeatSeconds).toBeLessThanOrEqual(25);
});

test("a connection that does not answer is cut, one that does stays", async () => {
  const server = await quickServer();
  const alive = await connectRaw(`${server.syncUrl}/fuses`, "member");
  const dead = await connectRaw(`${server.syncUrl}/fuses`, "member", { autoPong: false });
  // RFC 6455, section 7.1.5: 1006 = the connection broke without a close frame.
  expect((await dead.closed).code).toBe(1006);
  expect(alive.ws.readyState).toBe(1);
});

test("messages may be deflated", async () => {
  const server = await quickServer();
  const member = await connectRaw(`${server.syncUrl}/fuses`, "member");
  // RFC 7692: the extension's registered name.
  expect(member.ws.extensions).toContain("permessage-deflate");
});
