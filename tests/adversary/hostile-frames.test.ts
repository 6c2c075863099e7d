/** A member's device that sends what no honest client sends. */
import { rm } from "node:fs/promises";
import { dirname } from "node:path";
import { deflateRawSync } from "node:zlib";
import * as encoding from "lib0/encoding";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import * as Y from "yjs";
import { MESSAGE } from "#shared/protocol/messages.ts";
import { buildServer } from "#tests/support/built-server.ts";
import { connectStock } from "#tests/support/stock-client.ts";
import { openArena, sayWaits } from "./arena.ts";
import {
  afterGap,
  bytes,
  endless,
  numbers,
  presenceFrame,
  RESET,
  syncFrame,
  writing,
} from "./hostile-bytes.ts";

let program = "";
beforeAll(async () => {
  program = await buildServer();
});
afterAll(() => {
  sayWaits();
  return rm(dirname(program), { recursive: true, force: true });
});

const MIB = 1024 * 1024;

/** Bombs: few bytes that claim to be many. Each closes the connection as malformed. */
const BOMBS: Readonly<Record<string, () => Uint8Array>> = {
  "a number of endless digits": () => Uint8Array.from([0, 2, ...new Array<number>(4000).fill(255)]),
  "an update of 2^31 clients": () => syncFrame("update", numbers(2 ** 31)),
  "an update of 2^31 structs": () => syncFrame("update", numbers(1, 2 ** 31, 5, 0)),
  "a text of 2^50 letters": () =>
    syncFrame(
      "update",
      bytes((encoder) => {
        for (const value of [1, 1, 77, 0]) encoding.writeVarUint(encoder, value);
        encoding.writeUint8(encoder, 4);
        encoding.writeVarUint(encoder, 1);
        encoding.writeVarString(encoder, "cards");
        encoding.writeVarUint(encoder, 2 ** 50);
      }),
    ),
  "a state vector of 2^40 clients": () => syncFrame("stateVector", numbers(2 ** 40)),
  "a deletion of 2^40 ranges": () => syncFrame("update", numbers(0, 1, 5, 2 ** 40)),
  "a query for 2^40 clients": () => numbers(MESSAGE.durableQuery, 2 ** 40),
  "a presence of 2^40 entries": () =>
    bytes((encoder) => {
      encoding.writeVarUint(encoder, MESSAGE.awareness);
      encoding.writeVarUint8Array(encoder, numbers(2 ** 40));
    }),
  "a change as long as numbers go": () => syncFrame("update", endless(77, 0, 2 ** 52)),
  "a change beyond the last number": () => syncFrame("update", endless(77, 2 ** 52, 2 ** 53 - 1)),
  "a message only servers send": () => numbers(MESSAGE.acknowledgement, 0),
  "a message of a number nobody gave out": () => numbers(2 ** 30),
};

describe("[SRV-23] bytes that are no message cost the sender the connection and nobody anything", () => {
  for (const [what, frame] of Object.entries(BOMBS))
    test(what, async () => {
      const arena = await openArena(program);
      const socket = await arena.attack(arena.member.token);
      socket.send(frame());
      expect((await socket.closed).code).toBe(4400);
      await arena.unharmed();
    });

  test("an update cut short anywhere", async () => {
    const arena = await openArena(program);
    const whole = Y.encodeStateAsUpdate(arena.honest.doc);
    for (let i = 1; i <= 60; i++) {
      const cut = Math.floor((whole.length * i) / 61);
      const socket = await arena.attack(arena.member.token);
      socket.send(syncFrame("update", whole.slice(0, cut)));
      expect((await socket.closed).code).toBe(4400);
    }
    await arena.unharmed();
  });

  test("a text message, and a compressed one that swells to a thousand times its size", async () => {
    const arena = await openArena(program);
    const text = await arena.attack(arena.member.token);
    text.ws.send("let me in");
    expect((await text.closed).code).toBe(4400);
    const bomb = await arena.attack(arena.member.token);
    expect(deflateRawSync(Buffer.alloc(64 * MIB)).length).toBeLessThan(MIB);
    bomb.send(new Uint8Array(64 * MIB));
    // RFC 6455, section 7.4.1: 1009 = a message too big to process.
    expect((await bomb.closed).code).toBe(1009);
    await arena.unharmed();
  });

  test("frames above the bound, just and by far", async () => {
    const arena = await openArena(program, { TIGHTROW_FRAME_BYTES: "65536" });
    const just = await arena.attack(arena.member.token);
    just.send(syncFrame("update", writing("large", "x".repeat(65_536))));
    expect((await just.closed).code).toBe(4413);
    const far = await arena.attack(arena.member.token);
    far.send(new Uint8Array(10 * MIB));
    expect((await far.closed).code).toBe(1009);
    await arena.unharmed();
    expect(arena.honest.get("large")).toBeUndefined();
  });
});

describe("[SRV-24] changes that can be read but not taken harm nobody", () => {
  test("changes after a gap that is never filled are not kept", async () => {
    const arena = await openArena(program, { TIGHTROW_GAP_SECONDS: "1" });
    const socket = await arena.attack(arena.member.token);
    socket.send(syncFrame("update", afterGap(4242, 5)));
    expect((await socket.closed).code).toBe(4422);
    await arena.unharmed();
    // A fresh device is not told of it either, so nothing waits in its document.
    const reader = connectStock(arena.syncUrl, arena.leader.document, arena.leader.token);
    await reader.synced;
    expect(reader.doc.store.pendingStructs).toBeNull();
  });

  test("thousands of gaps from thousands of clients do not pile up", async () => {
    const arena = await openArena(program, { TIGHTROW_GAP_SECONDS: "1" });
    const socket = await arena.attack(arena.member.token);
    for (let client = 1; client <= 5000; client++) {
      if (socket.ws.readyState !== socket.ws.OPEN) break;
      socket.send(syncFrame("update", afterGap(1000 + client, 2)));
    }
    expect([4422, 4529, RESET]).toContain((await socket.closed).code);
    await arena.unharmed();
  });

  test("a change placed in something that is no container", async () => {
    const arena = await openArena(program);
    const parent = arena.honest.doc.clientID;
    // An item whose parent is the first value of the honest device: plain text, which holds nothing.
    const update = bytes((encoder) => {
      for (const value of [1, 1, 4243, 0]) encoding.writeVarUint(encoder, value);
      encoding.writeUint8(encoder, 8 | 32);
      encoding.writeVarUint(encoder, 0);
      encoding.writeVarUint(encoder, parent);
      encoding.writeVarUint(encoder, 0);
      encoding.writeVarString(encoder, "key");
      encoding.writeVarUint(encoder, 1);
      encoding.writeAny(encoder, "value");
      encoding.writeVarUint(encoder, 0);
    });
    const socket = await arena.attack(arena.member.token);
    socket.send(syncFrame("update", update));
    // Whether it is refused or ends up nowhere, the board stays as it was.
    await arena.unharmed();
  });

  test("the board's maps used as lists, texts and nested documents", async () => {
    const arena = await openArena(program);
    const doc = new Y.Doc();
    doc.getArray("songs").push([1, 2, 3]);
    doc.getText("people").insert(0, "not a person");
    doc.getXmlFragment("gigs").push([new Y.XmlElement("script")]);
    doc.getMap("anything").set("document", new Y.Doc());
    doc.getMap("takes").set("nested", new Y.Map([["a", new Y.Array()]]));
    const socket = await arena.attack(arena.member.token);
    socket.send(syncFrame("update", Y.encodeStateAsUpdate(doc)));
    await socket.frame(MESSAGE.acknowledgement);
    await arena.unharmed();
  });

  test("keys of a hundred thousand letters, and values a thousand levels deep", async () => {
    const arena = await openArena(program);
    let deep: unknown = "bottom";
    for (let i = 0; i < 1000; i++) deep = { deep };
    const socket = await arena.attack(arena.member.token);
    for (const update of [
      writing("k".repeat(100_000)),
      writing("deep", deep),
      writing("__proto__", { a: 1 }),
    ])
      socket.send(syncFrame("update", update));
    await socket.frame(MESSAGE.acknowledgement);
    await arena.unharmed();
  });
});

describe("[SRV-25] nobody can speak, leave or stay for somebody else", () => {
  test("presence of another device's client is not passed on", async () => {
    const arena = await openArena(program);
    const victim = connectStock(arena.syncUrl, arena.leader.document, arena.leader.token);
    await victim.synced;
    victim.provider.awareness.setLocalState({ member: "anneli" });
    const client = victim.doc.clientID;
    const seen = (): unknown => arena.honest.provider.awareness.getStates().get(client);
    await expect.poll(seen).toEqual({ member: "anneli" });
    const socket = await arena.attack(arena.member.token);
    socket.send(presenceFrame([client, 2 ** 31, '{"member":"forged"}']));
    socket.send(presenceFrame([client, 2 ** 31, "null"]));
    socket.send(presenceFrame([4244, 1, '{"member":"karim"}'], [client, 2 ** 31, "null"]));
    socket.send(presenceFrame([4245, 1, '{"member":"karim"}']));
    const karim = (): unknown => arena.honest.provider.awareness.getStates().get(4245);
    await expect.poll(karim).toEqual({ member: "karim" });
    expect(seen()).toEqual({ member: "anneli" });
    await arena.unharmed();
  });

  test("a guest is not shown, whatever it sends", async () => {
    const arena = await openArena(program);
    const guest = await arena.attack(arena.guest.token);
    guest.send(presenceFrame([4246, 1, '{"member":"anneli"}']));
    const member = await arena.attack(arena.member.token);
    member.send(presenceFrame([4247, 1, '{"member":"karim"}']));
    const states = () => arena.honest.provider.awareness.getStates();
    await expect.poll(() => states().get(4247)).toEqual({ member: "karim" });
    expect(states().has(4246)).toBe(false);
    await arena.unharmed();
  });

  test("presence that is huge, no JSON, no object or from the end of time", async () => {
    const arena = await openArena(program);
    const states = ["x".repeat(100_000), "{", "7", "[".repeat(20_000), '{"a":1'];
    for (const [i, json] of states.entries()) {
      const socket = await arena.attack(arena.member.token);
      socket.send(presenceFrame([5000 + i, 1, json]));
      socket.send(presenceFrame([5000 + i, 2 ** 52, "{}"]));
    }
    const huge = await arena.attack(arena.member.token);
    huge.send(presenceFrame([6000, 1, JSON.stringify({ text: "x".repeat(100_000) })]));
    huge.send(presenceFrame([6000, 2, '{"member":"small"}']));
    const small = (): unknown => arena.honest.provider.awareness.getStates().get(6000);
    await expect.poll(small).toEqual({ member: "small" });
    for (let i = 0; i < states.length; i++)
      expect(arena.honest.provider.awareness.getStates().has(5000 + i)).toBe(false);
    await arena.unharmed();
  });
});
