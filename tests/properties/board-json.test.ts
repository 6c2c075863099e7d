import fc from "fast-check";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { createRunner } from "#shared/commands/runner.ts";
import { createBoardDocument, type Json } from "#shared/document/board-document.ts";
import { migrate } from "#shared/document/migrations/migrate.ts";
import { ROOT_MAP_NAMES, type RootMap } from "#shared/document/root-maps.ts";
import { exportBoard, importBoard, parseBoardFile } from "#shared/exchange/board-json.ts";
import { findJsonFault } from "#shared/exchange/json-position.ts";
import { laws } from "#tests/support/fuzz.ts";
import { FOUNDATION, litter, playOn, rolls } from "#tests/support/random-steps.ts";

const key = fc.oneof(
  fc.constantFrom(
    "s1/title",
    "s1/tempo",
    "s2/unknown",
    "c1",
    "c1/since",
    "c1/m1/w1",
    "__proto__",
    "constructor",
    "10",
    "9",
    "",
  ),
  fc.string({ unit: "grapheme", maxLength: 12 }),
);

/** Anything JSON can say except the one name that an object cannot carry to another device. */
const value = fc
  .jsonValue({ maxDepth: 4 })
  .filter((json) => !JSON.stringify(json).includes('"__proto__"'))
  .map((json) => json as Json);

const maps = ROOT_MAP_NAMES.filter((map) => map !== "migrations");
const entry = fc.tuple(fc.constantFrom<RootMap>(...maps), key, value);

const documentOf = (entries: readonly (readonly [RootMap, string, Json])[]) => {
  const ydoc = new Y.Doc();
  const document = createBoardDocument(ydoc);
  document.transact("test", (set) => {
    for (const [map, name, json] of entries) set(map, name, json);
  });
  return { ydoc, document };
};

test("an export imported into a new band and exported again is the same file", () => {
  fc.assert(
    fc.property(fc.array(entry, { maxLength: 25 }), (entries) => {
      const { document } = documentOf(entries);
      migrate(document);
      const { text, leftOut } = exportBoard(document, "2026-03-14");
      const file = parseBoardFile(text);
      if (!file.ok) throw new Error(file.error);
      const copy = documentOf([]);
      expect(importBoard(copy.document, file.value, "import").ok).toBe(true);
      expect(exportBoard(copy.document, "2026-03-14").text).toBe(text);
      expect(leftOut).toEqual([]);
      for (const map of maps) {
        expect(new Map(copy.document.entries(map))).toEqual(new Map(document.entries(map)));
      }
    }),
    laws(),
  );
});

test("two devices with the same content export the same file, whatever the order of writing", () => {
  fc.assert(
    fc.property(fc.array(entry, { maxLength: 25 }), (entries) => {
      const { ydoc, document } = documentOf(entries);
      const other = documentOf([]);
      Y.applyUpdate(other.ydoc, Y.encodeStateAsUpdate(ydoc));
      const last = new Map(
        entries.map(([map, name, json]) => [`${map} ${name}`, [map, name, json] as const]),
      );
      const backwards = documentOf([...last.values()].reverse());
      const { text } = exportBoard(document, "2026-03-14");
      expect(exportBoard(other.document, "2026-03-14").text).toBe(text);
      expect(exportBoard(backwards.document, "2026-03-14").text).toBe(text);
    }),
    laws(),
  );
});

test("[FILE-1] a board of any life reads the same after its file was taken into a new band", () => {
  // A migration that nobody here knows is a later release's board, whose file is refused.
  const here = litter.filter(({ map }) => map !== "migrations");
  const step = fc.oneof({ weight: 5, arbitrary: rolls }, { weight: 1, arbitrary: here });
  fc.assert(
    fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
      const { document } = documentOf([]);
      playOn(document, [...FOUNDATION, ...steps], () => {});
      migrate(document);
      const file = parseBoardFile(exportBoard(document, "2026-03-14").text);
      if (!file.ok) throw new Error(file.error);
      const copy = documentOf([]);
      expect(importBoard(copy.document, file.value, "import").ok).toBe(true);
      const [board, again] = [document, copy.document].map((one) => createRunner(one).board());
      if (board === undefined || again === undefined) throw new Error("there are two boards");
      expect(again).toEqual(board);
    }),
    laws(60),
  );
});

test("a damaged file is refused or read, and never throws", () => {
  const damage = fc.tuple(
    fc.array(entry, { minLength: 1, maxLength: 5 }),
    fc.nat(),
    fc.nat({ max: 5 }),
    fc.string({ maxLength: 3 }),
  );
  fc.assert(
    fc.property(damage, ([entries, at, cut, put]) => {
      const { text } = exportBoard(documentOf(entries).document, "2026-03-14");
      const place = at % text.length;
      const read = parseBoardFile(text.slice(0, place) + put + text.slice(place + cut));
      if (!read.ok) expect(read.error).toMatch(/\.$/);
    }),
    laws(),
  );
});

const isJson = (text: string): boolean => {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
};

/** Outside check: the engine's JSON.parse (ECMA-262, grammar of ECMA-404 and RFC 8259). */
test("a fault is found in exactly those texts that JSON.parse refuses", () => {
  const scrap = fc.constantFrom(
    "{",
    "}",
    "[",
    "]",
    ",",
    ":",
    '"',
    '"a"',
    "1",
    "-",
    "0",
    ".5",
    "1e5",
    "true",
    "null",
    "nul",
    "\\",
    "\\u00e9",
    "\n",
    " ",
    "\t",
    "\u0001",
    "é",
  );
  const noise = fc.array(scrap, { maxLength: 12 }).map((parts) => parts.join(""));
  const damaged = fc.tuple(fc.json({ maxDepth: 3 }), fc.nat(), scrap).map(([json, at, put]) => {
    const place = at % (json.length + 1);
    return json.slice(0, place) + put + json.slice(place);
  });
  fc.assert(
    fc.property(fc.oneof(noise, damaged, fc.json()), (text) => {
      const fault = findJsonFault(text);
      expect(fault === null).toBe(isJson(text));
      if (fault === null) return;
      const lines = text.split(/\r\n|\r|\n/);
      expect(fault.line).toBeLessThanOrEqual(lines.length);
      expect(fault.column).toBeLessThanOrEqual((lines[fault.line - 1]?.length ?? 0) + 1);
    }),
    laws(),
  );
});
