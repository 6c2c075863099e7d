import fc from "fast-check";
import { expect, test } from "vitest";
import * as Y from "yjs";
import type { DeviceSession } from "#server/access/access-policy.ts";
import { decodeFrame, updateFrame } from "#server/rooms/frames.ts";
import { RoomRegistry } from "#server/rooms/room-registry.ts";
import { createMemoryStorage } from "#server/storage/memory-storage.ts";
import { createFakeFrameSocket } from "#tests/support/fake-frame-socket.ts";
import { laws } from "#tests/support/fuzz.ts";
import { sessionOn } from "#tests/support/open-access.ts";
import { roomParts } from "#tests/support/room-parts.ts";

const session = (device: string): DeviceSession =>
  sessionOn("fuses", { device, role: "member", memberId: null });

/** An update with every kind of content the board uses, and some that it does not. */
const healthyUpdate = (): Uint8Array => {
  const doc = new Y.Doc();
  const cards = doc.getMap("cards");
  cards.set("intro", "noticed");
  cards.set("intro", { level: 2, at: 1_900_000_000_000 });
  cards.set("nested", new Y.Map([["key", "value"]]));
  doc.getText("text").insert(0, "count four");
  doc.getText("text").delete(2, 3);
  doc.getArray("list").push([1, null, "two"]);
  return Y.encodeStateAsUpdate(doc);
};

const HEALTHY = healthyUpdate();

/** Sync step 1 of an empty document (y-protocols, PROTOCOL.md). */
const ASK_FOR_ALL = Uint8Array.of(0, 0, 1, 0);

const write = (key: string): Uint8Array => {
  const doc = new Y.Doc();
  doc.getMap("cards").set(key, "kept");
  return Y.encodeStateAsUpdate(doc);
};

test("however an update is damaged, the server goes on and keeps what others wrote before and after", async () => {
  const damage = fc.array(fc.tuple(fc.nat(HEALTHY.length - 1), fc.nat(255)), { minLength: 1, maxLength: 4 });
  const length = fc.integer({ min: 1, max: HEALTHY.length });
  await fc.assert(
    fc.asyncProperty(damage, fc.oneof(fc.constant(HEALTHY.length), length), async (changes, cut) => {
      const storage = createMemoryStorage();
      const open = () => new RoomRegistry({ storage, ...roomParts({ idleMs: 0 }) });
      const rooms = open();
      const join = async (device: string) =>
        (await rooms.open("fuses")).join(createFakeFrameSocket(), session(device));
      (await join("anneli")).receive(updateFrame(write("before")));
      const damaged = HEALTHY.slice(0, cut);
      for (const [at, value] of changes) if (at < cut) damaged[at] = value;
      (await join("karim")).receive(updateFrame(damaged));
      (await join("anneli")).receive(updateFrame(write("after")));

      // A server that starts again has only the log.
      const socket = createFakeFrameSocket();
      (await open().open("fuses")).join(socket, session("priya")).receive(ASK_FOR_ALL);
      const doc = new Y.Doc();
      for (const bytes of socket.sent) {
        const frame = decodeFrame(bytes);
        if (frame.kind === "update") Y.applyUpdate(doc, frame.bytes);
      }
      expect(doc.getMap("cards").get("before")).toBe("kept");
      expect(doc.getMap("cards").get("after")).toBe("kept");
    }),
    laws(),
  );
});
