import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { missingFrame, updateFrame } from "#server/rooms/frames.ts";
import { MESSAGE } from "#shared/protocol/messages.ts";
import { createBoard, joinAs } from "#tests/support/boards.ts";
import { openAccess } from "#tests/support/open-access.ts";
import { connectRaw } from "#tests/support/raw-client.ts";
import { connectStock } from "#tests/support/stock-client.ts";
import { startTestServer } from "#tests/support/test-server.ts";

const openServer = (settings = {}) => startTestServer({ access: () => openAccess, settings });

const someUpdate = (): Uint8Array => {
  const doc = new Y.Doc();
  doc.getMap("cards").set("intro", "noticed");
  return Y.encodeStateAsUpdate(doc);
};

const MALFORMED: Record<string, Uint8Array | readonly number[]> = {
  "nothing at all": [],
  "an unknown message type": [99],
  "a message only the server sends": [MESSAGE.acknowledgement, 0],
  "an unknown sync step": [0, 7, 0],
  "a length beyond the end": [0, 2, 200, 1, 0],
  "a number that never ends": [0, 2, 255, 255, 255, 255, 255, 255, 255, 255, 255, 255],
  "bytes behind the frame": [0, 2, 2, 0, 0, 1],
  "an update cut short": updateFrame(someUpdate().slice(0, -4)),
  "an update that claims 2^31 structs": updateFrame(
    encoding.encode((encoder) => {
      for (const value of [1, 2 ** 31, 5, 0]) encoding.writeVarUint(encoder, value);
    }),
  ),
  "a state vector that is none": [0, 0, 3, 9, 9, 9],
  "presence that is no JSON": [1, 5, 1, 7, 1, 1, 123],
  "a query for more clients than allowed": encoding.encode((encoder) => {
    encoding.writeVarUint(encoder, MESSAGE.durableQuery);
    encoding.writeVarUint(encoder, 2 ** 40);
  }),
};

for (const [what, frame] of Object.entries(MALFORMED))
  test(`${what} closes the connection that sent it, and only that`, async () => {
    const server = await openServer();
    const neighbour = connectStock(server.syncUrl, "fuses", "leader");
    await neighbour.synced;
    const bad = await connectRaw(`${server.syncUrl}/fuses`, "member");
    bad.send(frame);
    expect(await bad.closed).toEqual({ code: 4400, reason: "malformed" });
    neighbour.set("intro", "noticed");
    await neighbour.saved();
    expect(await server.storage.load("fuses")).toHaveLength(1);
  });

test("a text message closes the connection", async () => {
  const server = await openServer();
  const bad = await connectRaw(`${server.syncUrl}/fuses`, "member");
  bad.ws.send("hello");
  expect((await bad.closed).code).toBe(4400);
});

test("[SRV-3] a frame above the bound is refused for good, one at the bound is taken", async () => {
  const server = await openServer({ frameBytes: 1024 });
  const doc = new Y.Doc();
  doc.getMap("cards").set("intro", "x".repeat(900));
  const fits = await connectRaw(`${server.syncUrl}/fuses`, "member");
  fits.send(updateFrame(Y.encodeStateAsUpdate(doc)));
  await fits.frame(MESSAGE.acknowledgement);
  const large = await connectRaw(`${server.syncUrl}/fuses`, "member");
  large.send(new Uint8Array(1025));
  expect((await large.closed).code).toBe(4413);
  const huge = await connectRaw(`${server.syncUrl}/fuses`, "member");
  huge.send(new Uint8Array(4096));
  // RFC 6455, section 7.4.1: 1009 = a message too big to process.
  expect((await huge.closed).code).toBe(1009);
});

test("a guest is not asked for its state, and its empty reply is ignored", async () => {
  const server = await openServer();
  const guest = await connectRaw(`${server.syncUrl}/fuses`, "guest");
  guest.send(missingFrame(Uint8Array.from([0, 0])));
  guest.send([0, 0, 1, 0]);
  await guest.frame(0, 1);
  expect(guest.frames.filter(([type, step]) => type === 0 && step === 0)).toHaveLength(0);
  guest.send(missingFrame(someUpdate()));
  expect((await guest.closed).code).toBe(4403);
});

test("a writer is asked for what the server lacks", async () => {
  const server = await openServer();
  const member = await connectRaw(`${server.syncUrl}/fuses`, "member");
  // y-protocols, PROTOCOL.md: sync step 1 of an empty document is 00 00 01 00.
  expect([...(await member.frame(0, 0))]).toEqual([0, 0, 1, 0]);
});

test("changes that lack an earlier one are not acknowledged before that arrives", async () => {
  const server = await openServer();
  const doc = new Y.Doc();
  const updates: Uint8Array[] = [];
  doc.on("update", (update: Uint8Array) => updates.push(update));
  doc.getMap("cards").set("intro", "noticed");
  doc.getMap("cards").set("outro", "noticed");
  const [first, second] = updates;
  if (first === undefined || second === undefined) throw new Error("two transactions make two updates");
  const member = await connectRaw(`${server.syncUrl}/fuses`, "member");
  member.send(updateFrame(second));
  expect(clockIn(await member.frame(MESSAGE.acknowledgement), doc.clientID)).toBe(0);
  member.frames.length = 0;
  member.send(updateFrame(first));
  expect(clockIn(await member.frame(MESSAGE.acknowledgement), doc.clientID)).toBe(2);
});

test("without our subprotocol the page is told to reload", async () => {
  const server = await openServer();
  const old = await connectRaw(`${server.syncUrl}/fuses`, "", { protocols: [] });
  expect((await old.closed).code).toBe(4426);
});

test("only the version is echoed, never the token", async () => {
  const server = await startTestServer();
  const leader = await createBoard(server.origin);
  const { ws } = await connectRaw(`${server.syncUrl}/${leader.board}`, leader.token);
  expect(ws.protocol).toBe("tightrow.v1");
  expect(JSON.stringify(server.logged)).not.toContain(leader.token);
});

test("wrong tokens, other boards and odd paths each get their code", async () => {
  const server = await startTestServer();
  const leader = await createBoard(server.origin);
  const other = await createBoard(server.origin);
  const member = await joinAs(server.origin, leader, "member");
  const code = async (board: string, token: string) =>
    (await (await connectRaw(`${server.syncUrl}/${board}`, token)).closed).code;
  expect(await code(leader.board, "bm90LWEtdG9rZW4")).toBe(4401);
  expect(await code(other.board, member.token)).toBe(4404);
  expect(await code("nothing-here", member.token)).toBe(4404);
  expect(await code(`${leader.board}%2F..%2F${other.board}`, member.token)).toBe(4404);
  expect(await code("%E0%A4%A", member.token)).toBe(4404);
});

test("a page of another origin gets no socket; this host's pages and programs do", async () => {
  const server = await startTestServer({ settings: { origins: ["https://board.example.org"] } });
  const leader = await createBoard(server.origin);
  const url = `${server.syncUrl}/${leader.board}`;
  const from = (origin: string) => connectRaw(url, leader.token, { headers: { Origin: origin } });
  for (const origin of [
    "https://elsewhere.example.org",
    "null",
    `${server.origin}.example.org`,
    "http://127.0.0.1",
  ])
    await expect(from(origin)).rejects.toThrow(/403/);
  for (const origin of [server.origin, "https://board.example.org"])
    expect((await from(origin)).ws.readyState).toBe(1);
});

const clockIn = (frame: Uint8Array, client: number): number | undefined => {
  const decoder = decoding.createDecoder(frame);
  decoding.readVarUint(decoder);
  return Y.decodeStateVector(decoding.readTailAsUint8Array(decoder)).get(client);
};
