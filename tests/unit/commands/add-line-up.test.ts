import { expect, test } from "vitest";
import * as Y from "yjs";
import { INSTRUMENTS } from "#shared/board/band.ts";
import { chairWords, LINE_UP_PRESETS } from "#shared/board/line-up-presets.ts";
import { addChair } from "#shared/commands/add-chair.ts";
import { addLineUp } from "#shared/commands/add-line-up.ts";
import { type CommandContext, idsFrom } from "#shared/commands/command.ts";
import { removeChair } from "#shared/commands/remove-record.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { takeBack } from "#shared/commands/take-back.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { removedRecords } from "#shared/selectors/removed.ts";

const context = (id: string): CommandContext => ({
  id,
  now: 1_000,
  author: { member: null, writer: "laptop", role: "leader" },
  newId: idsFrom(id),
});

const open = () => {
  const document = createBoardDocument(new Y.Doc());
  return { document, runner: createRunner(document) };
};

test.each(LINE_UP_PRESETS)("$name puts its chairs in order, all of them vacant", ({ chairs }) => {
  const { runner } = open();
  expect(runner.run(addLineUp, { chairs: [...chairs] }, context("one")).ok).toBe(true);
  expect(runner.board().chairs.map(({ name, short, instrument }) => ({ name, short, instrument }))).toEqual(
    chairs,
  );
  expect(runner.board().chairs.every(({ holder }) => holder === null)).toBe(true);
  expect(runner.board().issues).toEqual([]);
});

test("presets differ, and their short names fit a narrow column and tell the chairs apart", () => {
  expect(new Set(LINE_UP_PRESETS.map(chairWords)).size).toBe(LINE_UP_PRESETS.length);
  for (const { chairs } of LINE_UP_PRESETS) {
    expect(new Set(chairs.map(({ short }) => short)).size).toBe(chairs.length);
    for (const { short, instrument } of chairs) {
      expect(short.length).toBeLessThanOrEqual(4);
      expect(INSTRUMENTS).toContain(instrument);
    }
  }
});

test("a chair the band has already is not added twice", () => {
  const { runner } = open();
  runner.run(addChair, { name: "bass ", instrument: "bass" }, context("one"));
  const trio = LINE_UP_PRESETS[0]?.chairs ?? [];
  runner.run(addLineUp, { chairs: [...trio] }, context("two"));
  expect(runner.board().chairs.map(({ name }) => name)).toEqual(["bass", "Guitar", "Drums", "Lead voice"]);
});

test("a whole line-up is taken back at once", () => {
  const { runner } = open();
  const done = runner.run(addLineUp, { chairs: [...(LINE_UP_PRESETS[3]?.chairs ?? [])] }, context("one"));
  if (!done.ok) throw new Error(done.error.sentence);
  expect(runner.run(takeBack, { written: [...done.value.written] }, context("two")).ok).toBe(true);
  expect(runner.board().chairs).toEqual([]);
});

test("what was taken off the board is listed by its name", () => {
  const { document, runner } = open();
  runner.run(addLineUp, { chairs: [...(LINE_UP_PRESETS[0]?.chairs ?? [])] }, context("one"));
  for (const { id } of runner.board().chairs.slice(0, 2))
    runner.run(removeChair, { id }, context(`remove-${id}`));
  expect(removedRecords(runner.board(), document, "chairs").map(({ name }) => name)).toEqual([
    "Bass",
    "Guitar",
  ]);
  expect(removedRecords(runner.board(), document, "songs")).toEqual([]);
});
