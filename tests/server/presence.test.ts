import * as encoding from "lib0/encoding";
import { expect, test } from "vitest";
import { Awareness, applyAwarenessUpdate } from "y-protocols/awareness";
import * as Y from "yjs";
import type { Connection } from "#server/rooms/connection.ts";
import { decodeFrame, MalformedFrame } from "#server/rooms/frames.ts";
import { PresenceRelay } from "#server/rooms/presence-relay.ts";
import { openAccess, sessionOn } from "#tests/support/open-access.ts";
import { connectStock, type StockClient } from "#tests/support/stock-client.ts";
import { startTestServer } from "#tests/support/test-server.ts";

/** Only what the relay looks at: whose device it is. */
const connection = (device: string): Connection =>
  ({ session: sessionOn("fuses", { device, role: "member" }) }) as Connection;

const entry = (client: number, clock: number, json: string): [number, number, string] => [
  client,
  clock,
  json,
];

const update = (...entries: [number, number, string][]): Uint8Array =>
  encoding.encode((encoder) => {
    encoding.writeVarUint(encoder, entries.length);
    for (const [client, clock, json] of entries) {
      encoding.writeVarUint(encoder, client);
      encoding.writeVarUint(encoder, clock);
      encoding.writeVarString(encoder, json);
    }
  });

/** What a stock client makes of the relay's frames: client → state. */
const asSeen = (...frames: (Uint8Array | null)[]): Record<string, unknown> => {
  const doc = new Y.Doc();
  const awareness = new Awareness(doc);
  awareness.setLocalState(null);
  for (const bytes of frames) {
    const frame = bytes === null ? null : decodeFrame(bytes);
    if (frame?.kind === "awareness") applyAwarenessUpdate(awareness, frame.bytes, null);
  }
  const states = Object.fromEntries(awareness.getStates());
  awareness.destroy();
  return states;
};

test("a connection speaks for the client its first frame names alone", () => {
  const relay = new PresenceRelay(1000);
  const anneli = connection("anneli");
  expect(asSeen(relay.receive(anneli, update(entry(1, 1, '{"at":"intro"}'))))).toEqual({
    1: { at: "intro" },
  });
  expect(relay.receive(anneli, update(entry(2, 1, '{"at":"outro"}')))).toBeNull();
  expect(asSeen(relay.everybody())).toEqual({ 1: { at: "intro" } });
});

test("a first frame about several clients makes nobody's voice of the connection", () => {
  const relay = new PresenceRelay(1000);
  const karim = connection("karim");
  expect(relay.receive(karim, update(entry(9, 5, '{"at":"forged"}'), entry(1, 1, "{}")))).toBeNull();
  expect(asSeen(relay.receive(karim, update(entry(1, 1, '{"at":"intro"}'))))).toEqual({ 1: { at: "intro" } });
});

test("what a client repeats about others is dropped, its own part is passed on", () => {
  const relay = new PresenceRelay(1000);
  const anneli = connection("anneli");
  relay.receive(anneli, update(entry(1, 1, '{"at":"intro"}')));
  const frame = relay.receive(anneli, update(entry(9, 5, "null"), entry(1, 2, '{"at":"bridge"}')));
  expect(asSeen(frame)).toEqual({ 1: { at: "bridge" } });
});

test("nobody takes over another device's client, but a device takes over its own dead connection's", () => {
  const relay = new PresenceRelay(1000);
  const [old, back, other] = [connection("anneli"), connection("anneli"), connection("priya")];
  relay.receive(old, update(entry(1, 1, '{"at":"intro"}')));
  expect(relay.receive(other, update(entry(1, 9, '{"at":"forged"}')))).toBeNull();
  expect(asSeen(relay.receive(back, update(entry(1, 2, '{"at":"outro"}'))))).toEqual({ 1: { at: "outro" } });
  expect(relay.leave(old)).toBeNull();
  expect(asSeen(relay.everybody())).toEqual({ 1: { at: "outro" } });
});

test("whoever leaves is gone for those who saw them", () => {
  const relay = new PresenceRelay(1000);
  const anneli = connection("anneli");
  const shown = relay.receive(anneli, update(entry(1, 1, '{"at":"intro"}')));
  expect(asSeen(shown, relay.leave(anneli))).toEqual({});
  expect(relay.everybody()).toBeNull();
});

test("a presence above the bound is dropped, one at the bound is passed on", () => {
  const relay = new PresenceRelay(20);
  const anneli = connection("anneli");
  expect(relay.receive(anneli, update(entry(1, 1, '{"a":"0123456789abcd"}')))).toBeNull();
  expect(relay.receive(anneli, update(entry(1, 2, '{"a":"0123456789ab"}')))).not.toBeNull();
});

test("what would break other clients is malformed", () => {
  const relay = new PresenceRelay(1000);
  for (const broken of [
    update(entry(1, 1, "{")),
    update(entry(1, 1, "7")),
    update(entry(1, 2 ** 40, "{}")),
    Uint8Array.of(9, 1),
  ])
    expect(() => relay.receive(connection("anneli"), broken)).toThrow(MalformedFrame);
});

test("stock clients see each other come, move and go, and nothing of it is stored", async () => {
  const server = await startTestServer({ access: () => openAccess });
  const [anneli, priya] = ["leader", "member"].map((role) => connectStock(server.syncUrl, "fuses", role));
  if (anneli === undefined || priya === undefined) throw new Error("two clients");
  await Promise.all([anneli.synced, priya.synced]);
  anneli.provider.awareness.setLocalState({ at: "intro" });
  await presenceOf(priya, anneli, (state) => state?.at === "intro");
  anneli.stop();
  await presenceOf(priya, anneli, (state) => state === undefined);
  expect(await server.storage.load("fuses")).toEqual([]);
});

const presenceOf = (
  watcher: StockClient,
  watched: StockClient,
  holds: (state: Record<string, unknown> | undefined) => boolean,
): Promise<void> =>
  new Promise((resolve) => {
    const { awareness } = watcher.provider;
    const check = (): void => {
      if (holds(awareness.getStates().get(watched.doc.clientID))) resolve();
    };
    awareness.on("change", check);
    check();
  });
