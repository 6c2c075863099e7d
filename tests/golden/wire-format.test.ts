import * as encoding from "lib0/encoding";
import { expect, test } from "vitest";
import * as Y from "yjs";
import {
  acknowledgementFrame,
  decodeFrame,
  missingFrame,
  stateVectorFrame,
  updateFrame,
} from "#server/rooms/frames.ts";
import { inspectUpdate } from "#server/rooms/inspect-update.ts";

/**
 * Bytes of the wire. Source: the grammar in PROTOCOL.md of github.com/yjs/y-protocols (sync step 1 = 0, step 2 = 1,
 * update = 2, frame type sync = 0, awareness = 1, varUint = 7 bits per byte with the least significant first), and the
 * bytes that yjs 13.6 itself writes for the documents described beside them.
 */
const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString("hex");
const bytes = (text: string): Uint8Array => Uint8Array.from(Buffer.from(text.replaceAll(" ", ""), "hex"));

const EMPTY_STATE_VECTOR = "00";
const EMPTY_UPDATE = "0000";
/** Client 1 sets key "a" of the map "m" to 1. */
const MAP_UPDATE = "01 01 01 00 28 01 01 6d 01 61 01 7d 01 00";
/** Then client 1 writes "hi" into the text "t". */
const TEXT_UPDATE = "01 01 01 01 04 01 01 74 02 68 69 00";
/** Client 1 is at clock 3. */
const STATE_VECTOR = "01 01 03";

test("varUint puts the least significant bits first", () => {
  const cases: [number, string][] = [
    [127, "7f"],
    [128, "8001"],
    [300, "ac02"],
    [16384, "808001"],
    [Number.MAX_SAFE_INTEGER, "ffffffffffffff0f"],
  ];
  for (const [value, expected] of cases)
    expect(hex(encoding.encode((encoder) => encoding.writeVarUint(encoder, value)))).toBe(expected);
});

test("sync frames are type 0, their step, and a counted body", () => {
  expect(hex(stateVectorFrame(bytes(EMPTY_STATE_VECTOR)))).toBe("00000100");
  expect(hex(stateVectorFrame(bytes(STATE_VECTOR)))).toBe("000003010103");
  expect(hex(missingFrame(bytes(EMPTY_UPDATE)))).toBe("0001020000");
  expect(hex(updateFrame(bytes(EMPTY_UPDATE)))).toBe("0002020000");
});

test("frames of a stock client are understood", () => {
  expect(decodeFrame(bytes("00 00 03 01 01 03"))).toEqual({
    kind: "state-vector",
    bytes: bytes(STATE_VECTOR),
  });
  expect(decodeFrame(bytes("00 01 02 00 00"))).toEqual({ kind: "update", bytes: bytes(EMPTY_UPDATE) });
  expect(decodeFrame(bytes(`00 02 0e ${MAP_UPDATE}`))).toEqual({ kind: "update", bytes: bytes(MAP_UPDATE) });
  // Awareness of client 1 at clock 1 with the state {"n":"x"}.
  const presence = "01 01 01 09 7b 22 6e 22 3a 22 78 22 7d";
  expect(decodeFrame(bytes(`01 0d ${presence}`))).toEqual({ kind: "awareness", bytes: bytes(presence) });
  expect(decodeFrame(bytes("03"))).toEqual({ kind: "query-awareness" });
});

test("our own frames: 120 and the rest is a state vector, 121 and a counted list of clients", () => {
  expect(hex(acknowledgementFrame(bytes(STATE_VECTOR)))).toBe("78010103");
  expect(decodeFrame(bytes("79 02 01 ac 02"))).toEqual({ kind: "durable-query", clients: [1, 300] });
});

test("updates tell whose changes they carry", () => {
  expect(inspectUpdate(bytes(EMPTY_UPDATE))).toEqual({ clients: new Set(), empty: true });
  expect(inspectUpdate(bytes(MAP_UPDATE))).toEqual({ clients: new Set([1]), empty: false });
});

test("the updates above make the documents they are said to make", () => {
  const doc = new Y.Doc();
  Y.applyUpdate(doc, bytes(MAP_UPDATE));
  Y.applyUpdate(doc, bytes(TEXT_UPDATE));
  expect(doc.getMap("m").toJSON()).toEqual({ a: 1 });
  expect(doc.getText("t").toString()).toBe("hi");
  expect(hex(Y.encodeStateVector(doc))).toBe("010103");
});
