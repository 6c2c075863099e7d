import fc from "fast-check";
import { expect, test } from "vitest";
import { decodeHistoryRows, encodeHistoryRows } from "#shared/protocol/history-rows.ts";

const row = fc.record({
  seq: fc.maxSafeNat(),
  at: fc.maxSafeNat(),
  device: fc.string({ unit: "binary", maxLength: 30 }),
  member: fc.option(fc.string({ unit: "binary", maxLength: 30 })),
  bytes: fc.uint8Array({ maxLength: 200 }),
});

test("rows come back as they were sent, also from the middle of a larger buffer", () => {
  fc.assert(
    fc.property(fc.array(row, { maxLength: 12 }), fc.nat(9), (rows, before) => {
      const sent = encodeHistoryRows(rows);
      const around = new Uint8Array(sent.length + before + 3);
      around.set(sent, before);
      expect(decodeHistoryRows(around.subarray(before, before + sent.length))).toEqual(rows);
    }),
    { numRuns: 1000 },
  );
});

test("cut short anywhere within a row they are refused, and bytes that are no rows never throw", () => {
  fc.assert(
    fc.property(fc.array(row, { minLength: 1, maxLength: 4 }), fc.nat(), (rows, cut) => {
      const sent = encodeHistoryRows(rows);
      const ends = new Set<number>();
      for (let i = 0; i <= rows.length; i++) ends.add(encodeHistoryRows(rows.slice(0, i)).length);
      const at = cut % sent.length;
      const read = decodeHistoryRows(sent.subarray(0, at));
      expect(read === null).toBe(!ends.has(at));
    }),
    { numRuns: 1000 },
  );
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 120 }), (bytes) => {
      const read = decodeHistoryRows(bytes);
      expect(read === null || Array.isArray(read)).toBe(true);
    }),
    { numRuns: 2000 },
  );
});

test("another layout than this release's is refused", () => {
  expect(decodeHistoryRows(Uint8Array.of(2))).toBeNull();
  expect(decodeHistoryRows(Uint8Array.of(1))).toEqual([]);
});
