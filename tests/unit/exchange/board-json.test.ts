import { expect, test } from "vitest";
import * as Y from "yjs";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { migrate, migrationsCurrent } from "#shared/document/migrations/migrate.ts";
import { readBoard } from "#shared/document/read/board-reader.ts";
import { exportBoard, importBoard, parseBoardFile } from "#shared/exchange/board-json.ts";

const fresh = () => createBoardDocument(new Y.Doc());

const small = () => {
  const document = fresh();
  document.transact("test", (set) => {
    set("songs", "s1/title", "Marzipan Diesel");
    set("songs", "s1/tempo", 112);
    set("band", "name", "Six Spare Fuses");
    set("chairs", "gt1/name", "Guitar 1");
    set("songs", "s1/laterField", { b: [1, null], a: "kept" });
  });
  migrate(document);
  return document;
};

const TEXT = exportBoard(small(), "2026-03-14").text;
const refusal = (text: string): string => {
  const read = parseBoardFile(text);
  return read.ok ? "accepted" : read.error;
};
const changed = (change: (file: Record<string, unknown>) => void): string => {
  const file = JSON.parse(TEXT) as Record<string, unknown>;
  change(file);
  return JSON.stringify(file);
};

test("the file names the band and the day, and lists every map with sorted keys", () => {
  expect(TEXT).toMatch(
    /^\{\n {2}"format": "tightrow board",\n {2}"version": 1,\n {2}"band": "Six Spare Fuses",\n {2}"exportedOn": "2026-03-14",/,
  );
  expect(TEXT).toContain(
    '"songs": {\n      "s1/laterField": {"a":"kept","b":[1,null]},\n      "s1/tempo": 112,\n      "s1/title": "Marzipan Diesel"\n    }',
  );
});

test("an imported file reads as the same board", () => {
  const file = parseBoardFile(TEXT);
  const document = fresh();
  expect(file.ok && importBoard(document, file.value, "import")).toEqual({ ok: true, value: { keys: 6 } });
  expect(readBoard(document)).toEqual(readBoard(small()));
  expect(exportBoard(document, "2026-03-14")).toEqual({ text: TEXT, leftOut: [] });
});

test("a file of an older shape is migrated, even where the new band's own document is current already", () => {
  const older = fresh();
  older.transact("test", (set) => set("band", "settings", { gapSeconds: 45, kindWeight: { gig: 1.5 } }));
  const file = parseBoardFile(exportBoard(older, "2026-03-14").text);
  if (!file.ok) throw new Error(file.error);
  const current = fresh();
  migrate(current);
  for (const target of [fresh(), current]) {
    expect(importBoard(target, file.value, "import")).toEqual({ ok: true, value: { keys: 1 } });
    expect(migrationsCurrent(target)).toBe(true);
    expect(new Map(target.entries("settings"))).toEqual(
      new Map([
        ["gapSeconds", 45],
        ["kindWeight.gig", 1.5],
      ]),
    );
    expect(readBoard(target).band).toEqual(readBoard(older).band);
  }
});

test("a file that is cut or edited by hand is refused with the place of the fault", () => {
  expect(refusal("")).toMatch(/line 1, column 1: the text ends too early/);
  expect(refusal(TEXT.slice(0, -20))).toMatch(/\(line \d+, column \d+: /);
  const line = TEXT.split("\n").findIndex((text) => text.includes('"s1/tempo": 112')) + 1;
  expect(refusal(TEXT.replace('"s1/tempo": 112,', '"s1/tempo": fast,'))).toBe(
    `The file is not whole JSON (line ${line}, column 19: a value is missing). Export the board again, or mend that place.`,
  );
});

test("something else than an exported board is refused", () => {
  for (const text of ["{}", "[]", "7", "null", '{"format":"songs"}', '"tightrow board"']) {
    expect(refusal(text), text).toMatch(/^This is not an exported board/);
  }
});

test("another version says which, and what to do", () => {
  expect(refusal(changed((file) => Object.assign(file, { version: 2 })))).toBe(
    "The file was written by a newer Tightrow (version 2; this one reads up to 1). Update Tightrow and import it again.",
  );
  expect(refusal(changed((file) => Object.assign(file, { version: "1" })))).toMatch(
    /"version" is "1"; it should be 1/,
  );
  expect(refusal(changed((file) => delete file.version))).toMatch(/"version" is missing/);
  expect(
    refusal(changed((file) => Object.assign(file.maps as object, { migrations: { "9999-later": true } }))),
  ).toBe(
    'The board was changed by a newer Tightrow (migration "9999-later"). Update Tightrow and import it again.',
  );
});

test("a wrong shape names the map and the key", () => {
  expect(refusal(changed((file) => delete file.maps))).toMatch(/"maps" is missing; it should be an object/);
  expect(refusal(changed((file) => Object.assign(file.maps as object, { songs: [] })))).toMatch(
    /The map "songs" is a list; it should be an object/,
  );
  expect(refusal(changed((file) => Object.assign(file.maps as object, { moods: {} })))).toMatch(
    /a map "moods" that this Tightrow does not know/,
  );
  expect(refusal(TEXT.replace("112", "1e999"))).toBe(
    'In the map "songs", the value of "s1/tempo" has a number too large to store. Mend it and import again.',
  );
  const deep = "[".repeat(80) + "]".repeat(80);
  expect(refusal(TEXT.replace("112", deep))).toMatch(/"s1\/tempo" is nested deeper than 64 levels/);
});

test("a value of the wrong type comes in as it is and is named by the reader, so nothing is lost", () => {
  const file = parseBoardFile(TEXT.replace("112", '"fast"'));
  const document = fresh();
  if (file.ok) importBoard(document, file.value, "import");
  expect(document.get("songs", "s1/tempo")).toBe("fast");
  expect(readBoard(document).issues).toEqual([expect.objectContaining({ map: "songs", key: "s1/tempo" })]);
});

test("names that reach for an object's prototype do no harm", () => {
  const text = TEXT.replace('"s1/tempo": 112', '"__proto__": {"polluted": true}');
  const file = parseBoardFile(text);
  const document = fresh();
  if (file.ok) importBoard(document, file.value, "import");
  expect(document.get("songs", "__proto__")).toEqual({ polluted: true });
  expect(exportBoard(document, "2026-03-14").text).toContain('"__proto__": {"polluted":true}');
  expect(readBoard(document).songs.size).toBe(1);
  expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  expect(refusal(TEXT.replace("112", '{"a":{"__proto__":{"polluted":true}}}'))).toMatch(
    /In the map "songs", the value of "s1\/tempo" uses the name __proto__/,
  );
  expect(refusal(TEXT.replace('"maps": {', '"maps": {\n "__proto__": {},'))).toMatch(/a map "__proto__"/);
});

test("a band that has something already is left alone; one that only has its name is filled", () => {
  const file = parseBoardFile(TEXT);
  if (!file.ok) throw new Error(file.error);
  const taken = fresh();
  taken.transact("test", (set) => set("people", "p1/name", "Priya Sundarvane"));
  const before = exportBoard(taken, "2026-03-14").text;
  expect(importBoard(taken, file.value, "import")).toMatchObject({
    ok: false,
    error: expect.stringContaining("people already"),
  });
  expect(exportBoard(taken, "2026-03-14").text).toBe(before);
  const named = fresh();
  named.transact("test", (set) => set("band", "name", "New band"));
  expect(importBoard(named, file.value, "import").ok).toBe(true);
  expect(readBoard(named).band.name).toBe("Six Spare Fuses");
});

test("an import is one transaction", () => {
  const document = fresh();
  const origins: unknown[] = [];
  document.onTouched((_, origin) => origins.push(origin));
  const file = parseBoardFile(TEXT);
  if (file.ok) importBoard(document, file.value, "import");
  expect(origins).toEqual(["import"]);
});

test("values no command writes and JSON cannot say are named, and the rest is exported", () => {
  const ydoc = new Y.Doc();
  ydoc.getMap("songs").set("s1/bytes", new Uint8Array([1]));
  ydoc.getMap("songs").set("s1/nested", new Y.Map());
  ydoc.getMap("songs").set("s1/endless", Number.POSITIVE_INFINITY);
  ydoc.getMap("songs").set("s1/title", "Tollbooth Cinnamon");
  const { text, leftOut } = exportBoard(createBoardDocument(ydoc), "2026-03-14");
  expect(leftOut.map(({ key }) => key).sort()).toEqual(["s1/bytes", "s1/endless", "s1/nested"]);
  expect(text).toContain('"s1/title": "Tollbooth Cinnamon"');
  expect(parseBoardFile(text).ok).toBe(true);
});
