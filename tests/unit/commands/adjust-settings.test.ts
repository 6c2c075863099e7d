import { expect, test } from "vitest";
import * as Y from "yjs";
import { DEFAULT_SETTINGS } from "#shared/board/settings.ts";
import { adjustSettings } from "#shared/commands/adjust-settings.ts";
import { type Command, idsFrom } from "#shared/commands/command.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { takeBack } from "#shared/commands/take-back.ts";
import { createBoardDocument, type Json, type Written } from "#shared/document/board-document.ts";
import { migrate } from "#shared/document/migrations/migrate.ts";

const author = { member: null, writer: "phone", role: "leader" } as const;

/** A leader's device; `record` is what a device of the first schema wrote before. */
const leader = (record?: Json) => {
  const ydoc = new Y.Doc();
  const document = createBoardDocument(ydoc);
  if (record !== undefined) document.transact("old", (set) => set("band", "settings", record));
  const runner = createRunner(document);
  const act = <A, I>(command: Command<A, I>, args: NoInfer<I>): readonly Written[] => {
    const done = runner.run(command, args, { id: "run", now: 1, author, newId: idsFrom("run") });
    if (!done.ok) throw new Error(done.error.sentence);
    return done.value.written;
  };
  return {
    ydoc,
    document,
    act,
    adjust: (changes: Record<string, number | null>) => act(adjustSettings, { changes }),
    /** As outboxes of the first schema kept it. */
    adjustAll: (settings: Record<string, number | number[] | Record<string, number>>) =>
      act(adjustSettings, { settings }),
    undo: (written: readonly Written[]) => act(takeBack, { written: [...written] }),
    hear: (other: Y.Doc) => Y.applyUpdate(ydoc, Y.encodeStateAsUpdate(other)),
    settings: () => runner.board().band.settings,
    issues: () => runner.board().issues,
  };
};
const keys = (written: readonly Written[]): readonly unknown[] =>
  written.map(({ map, key, after }) => [`${map}/${key}`, after]);

test("[SYNC-1] two leaders who change different constants at once both get what they asked for", () => {
  const [one, other] = [leader(), leader()];
  one.adjust({ gapSeconds: 45, "kindWeight.solo": 0.5 });
  other.adjust({ "kindWeight.gig": 1.5, "claim.3": 0.7 });
  one.hear(other.ydoc);
  other.hear(one.ydoc);
  expect(one.settings()).toEqual({
    ...DEFAULT_SETTINGS,
    gapSeconds: 45,
    kindWeight: { ...DEFAULT_SETTINGS.kindWeight, solo: 0.5, gig: 1.5 },
    claim: [0, 0.3, 0.45, 0.7],
  });
  expect(other.settings()).toEqual(one.settings());
});

test("only what changes is written, and where a constant starts is written as nothing", () => {
  const band = leader();
  expect(keys(band.adjust({ gapSeconds: 20 }))).toEqual([]);
  expect(keys(band.adjust({ gapSeconds: 45, g: 7 }))).toEqual([["settings/gapSeconds", 45]]);
  expect(keys(band.adjust({ gapSeconds: 20 }))).toEqual([["settings/gapSeconds", null]]);
  expect(band.settings()).toEqual(DEFAULT_SETTINGS);
});

test("a kept command of the first schema says all constants: those it does not name go back to where they start", () => {
  const band = leader();
  band.adjust({ gapSeconds: 45, "kindWeight.gig": 1.5, b: 0.7 });
  const written = band.adjustAll({
    gapSeconds: 45,
    kindWeight: { solo: 0.5, drill: 0.8, run: 1, gig: 1.25 },
  });
  expect(new Map(keys(written) as [string, unknown][])).toEqual(
    new Map<string, unknown>([
      ["settings/kindWeight.solo", 0.5],
      ["settings/kindWeight.gig", null],
      ["settings/b", null],
    ]),
  );
  expect(keys(band.adjustAll({ gapSeconds: 45, kindWeight: { solo: 0.5 } }))).toEqual([]);
  band.adjustAll({});
  expect(band.settings()).toEqual(DEFAULT_SETTINGS);
});

test("an unmigrated record is read whole, and a change on top of it touches its own constant alone", () => {
  const band = leader({ gapSeconds: 45, b: 0.7 });
  expect(band.settings()).toEqual({ ...DEFAULT_SETTINGS, gapSeconds: 45, b: 0.7 });
  const written = band.adjust({ gapSeconds: null });
  expect(band.settings()).toEqual({ ...DEFAULT_SETTINGS, b: 0.7 });
  migrate(band.document);
  expect(band.settings()).toEqual({ ...DEFAULT_SETTINGS, b: 0.7 });
  band.undo(written);
  expect(band.settings()).toEqual({ ...DEFAULT_SETTINGS, gapSeconds: 45, b: 0.7 });
});

test("of a record that an old client writes after the migration, constants without a key of their own count", () => {
  const band = leader({ gapSeconds: 45 });
  migrate(band.document);
  band.adjust({ b: 0.7 });
  band.adjust({ b: null });
  band.document.transact("old", (set) => set("band", "settings", { gapSeconds: 60, b: 0.9, soloCap: 2 }));
  expect(band.settings()).toEqual({ ...DEFAULT_SETTINGS, gapSeconds: 45, soloCap: 2 });
  expect(migrate(band.document)).toEqual([]);
  band.adjust({ soloCap: null });
  expect(band.settings()).toEqual({ ...DEFAULT_SETTINGS, gapSeconds: 45 });
});

test("[CMD-1] a change is taken back constant by constant, unless somebody changed the same constant since", () => {
  const band = leader();
  const mine = band.adjust({ gapSeconds: 45 });
  band.adjust({ b: 0.7 });
  band.undo(mine);
  expect(band.settings()).toEqual({ ...DEFAULT_SETTINGS, b: 0.7 });
  const again = band.adjust({ gapSeconds: 50 });
  band.adjust({ gapSeconds: 55 });
  expect(() => band.undo(again)).toThrow("Somebody has changed this since");
});

test("[CMD-1] a change made before the migration is taken back after it, and the others' changes since stay", () => {
  const before = { gapSeconds: 45, b: 0.7 };
  const after = { gapSeconds: 60, g: 10 };
  const old: readonly Written[] = [{ map: "band", key: "settings", before, after }];
  const band = leader(after);
  migrate(band.document);
  band.adjust({ soloCap: 2 });
  band.undo(old);
  expect(band.settings()).toEqual({ ...DEFAULT_SETTINGS, gapSeconds: 45, b: 0.7, soloCap: 2 });
  const contested = leader(after);
  migrate(contested.document);
  contested.adjust({ gapSeconds: 30 });
  expect(() => contested.undo(old)).toThrow("Somebody has changed this since");
});

test("a key that cannot be read is named, left out, and mended by the next change", () => {
  const band = leader({ k: 0, gapSeconds: 45 });
  band.document.transact("odd", (set) => {
    set("settings", "gapSeconds", "soon");
    set("settings", "later", 3);
  });
  expect(band.settings()).toEqual({ ...DEFAULT_SETTINGS, gapSeconds: 45 });
  expect(band.issues().map(({ map, key }) => `${map}/${key}`)).toEqual([
    "band/settings",
    "settings/gapSeconds",
    "settings/later",
  ]);
  band.adjust({ gapSeconds: 30 });
  expect(band.settings().gapSeconds).toBe(30);
  expect(band.issues().map(({ map, key }) => `${map}/${key}`)).toEqual(["band/settings", "settings/later"]);
});
