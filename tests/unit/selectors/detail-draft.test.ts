import { describe, expect, test } from "vitest";
import { changesIn, draftOf, emptyDraft, readDraft } from "#shared/selectors/detail-draft.ts";
import { aCard, aSong } from "#tests/support/ready-song.ts";

const { sections } = aSong();
const card = aCard("c1", { where: { from: { section: "v1", bar: 8 } }, right: "you hear the room" });

describe("a detail while it is written", () => {
  test("needs nothing but a few words", () => {
    const read = readDraft({ ...emptyDraft(["gt"]), text: "  roll it back  " }, sections);
    expect(read).toEqual({
      ok: true,
      value: {
        text: "roll it back",
        right: "",
        kind: "general",
        weight: "lift",
        where: {},
        chairs: ["gt"],
        source: "as recorded",
        without: null,
      },
    });
  });

  test("without words is refused at the words", () => {
    expect(readDraft({ ...emptyDraft(["gt"]), text: " " }, sections)).toMatchObject({
      ok: false,
      error: { field: "text" },
    });
  });

  test("reads its place as players say it", () => {
    const read = readDraft({ ...emptyDraft([]), text: "x", where: "verse 1 bar 8" }, sections);
    expect(read.ok && read.value.where).toEqual({ from: { section: "v1", bar: 8 } });
  });

  test("with a place the song does not have is refused there, with what it has", () => {
    const read = readDraft({ ...emptyDraft([]), text: "x", where: "Solo" }, sections);
    expect(read.ok ? "" : read.error.sentence).toContain("Its sections are V1");
  });

  test("whose section is gone keeps its place when only its words change", () => {
    const lost = aCard("c2", { where: { from: { section: "gone", bar: 2 } } });
    const read = readDraft({ ...draftOf(lost, sections), text: "new words" }, sections, lost);
    expect(read.ok && read.value.where).toEqual(lost.where);
  });
});

describe("what a draft changes", () => {
  const change = (over: Partial<ReturnType<typeof draftOf>>) => {
    const read = readDraft({ ...draftOf(card, sections), ...over }, sections, card);
    if (!read.ok) throw new Error(read.error.sentence);
    return changesIn(read.value, card);
  };

  test("is nothing for a draft just opened", () => {
    expect(change({})).toEqual({ text: false, right: false, body: {}, matters: false });
  });

  test.each([
    [{ text: "Hit on 4" }, { text: true, matters: true }],
    [{ right: "" }, { right: true, matters: true }],
    [{ where: "V1 b9" }, { body: { where: { from: { section: "v1", bar: 9 } } }, matters: true }],
    [{ kind: "ending" as const }, { body: { kind: "ending" }, matters: true }],
    [{ weight: "polish" as const }, { body: { weight: "polish" }, matters: false }],
    [{ source: "live version" as const }, { body: { source: "live version" }, matters: false }],
    [{ chairs: ["gt", "bs"] }, { body: { chairs: ["gt", "bs"] }, matters: false }],
    [{ without: "bs" }, { body: { without: "bs" }, matters: false }],
  ])("for %j is %j", (over, expected) => {
    expect(change(over)).toMatchObject(expected);
  });
});
