import { expect, test } from "vitest";
import type { Where } from "#shared/board/card.ts";
import { parseWhere } from "#shared/board/parse-where.ts";
import type { Section } from "#shared/board/song.ts";
import { compareWhere, formatWhere, GONE_SECTION } from "#shared/board/where.ts";
import { PLAIN_SECTION } from "#tests/support/plain-section.ts";

const form = (...names: readonly string[]): readonly Section[] =>
  names.map((name, index) => ({
    id: `s${index}`,
    song: "song",
    name,
    bars: 16,
    ...PLAIN_SECTION,
    order: `a${index}`,
    since: 0,
  }));

const MARZIPAN = form("Intro", "V1", "Ch1", "V2", "Ch2", "Solo", "Break", "V3", "Ch3", "Outro");
const at = (name: string, bar?: number, beat?: number) => ({
  section: MARZIPAN.find((section) => section.name === name)?.id ?? "none",
  ...(bar === undefined ? {} : { bar }),
  ...(beat === undefined ? {} : { beat }),
});

const said: readonly (readonly [string, Where])[] = [
  ["whole", {}],
  ["Outro b8", { from: at("Outro", 8) }],
  ["V2 b1-b8", { from: at("V2", 1), to: at("V2", 8) }],
  ["Ch1-Ch3", { from: at("Ch1"), to: at("Ch3") }],
  ["V2 b1-Ch2", { from: at("V2", 1), to: at("Ch2") }],
  ["Solo b8 beat 4", { from: at("Solo", 8, 4) }],
  ["Solo b8 beat 4-and", { from: at("Solo", 8, 4.5) }],
  ["Solo b8 beat 3-4-and", { from: at("Solo", 8, 3), to: at("Solo", 8, 4.5) }],
  ["Solo b8 beat 4-b9 beat 1", { from: at("Solo", 8, 4), to: at("Solo", 9, 1) }],
  ["Ch2 2nd time", { from: at("Ch2"), pass: 2 }],
  ["Ch2 b3 11th time at 1:42.5", { from: at("Ch2", 3), pass: 11, clock: 102.5 }],
  ["1:42", { clock: 102 }],
  ["0:00", { clock: 0 }],
  ["whole 2nd time", { pass: 2 }],
];

test.each(said)("%s is read and written the same way", (text, where) => {
  expect(parseWhere(text, MARZIPAN)).toEqual({ ok: true, value: where });
  expect(formatWhere(where, MARZIPAN)).toBe(text);
});

const loosely: readonly (readonly [string, string])[] = [
  ["", "whole"],
  ["the whole song", "whole"],
  ["OUTRO  bar 8", "Outro b8"],
  ["outro b5-8", "Outro b5-b8"],
  ["V2 bars 1–8", "V2 b1-b8"],
  ["verse 2, wait", "refused"],
  ["Verse 2 bar 9", "V2 b9"],
  ["chorus 3", "Ch3"],
  ["Chorus 1 - Chorus 3", "Ch1-Ch3"],
  ["Ch2 2nd pass only", "Ch2 2nd time"],
  ["@1:42", "1:42"],
  ["at 1:42", "1:42"],
  ["Break 1:42", "Break at 1:42"],
  ["Solo b8 beat 4 & ", "refused"],
  ["Solo b8 beat 4+", "Solo b8 beat 4-and"],
  ["Ch1-Ch1", "Ch1"],
];

test.each(loosely)("people write %j and mean %s", (text, canonical) => {
  const read = parseWhere(text, MARZIPAN);
  expect(read.ok ? formatWhere(read.value, MARZIPAN) : "refused").toBe(canonical);
});

const refusal = (text: string, sections = MARZIPAN): string => {
  const read = parseWhere(text, sections);
  return read.ok ? `accepted as ${formatWhere(read.value, sections)}` : read.error;
};

test("an unknown section is refused with the sections that exist", () => {
  expect(refusal("Bridge b8")).toBe(
    '"Bridge b8" is not a place in this song. Its sections are Intro, V1, Ch1, V2, Ch2, Solo, Break, V3, Ch3, Outro; add a bar as in "Intro b1".',
  );
});

test("a song without a form says what to do first", () => {
  expect(refusal("Bridge", [])).toMatch(/no sections\. Add its form/);
});

test("a bar past the end, bar 0, a wrong order and an endless text each get their own sentence", () => {
  expect(refusal("Outro b17")).toBe("Outro has 16 bars, so there is no bar 17.");
  expect(refusal("Outro b0")).toBe("Bars and beats are counted from 1.");
  expect(refusal("Ch2 0th time")).toMatch(/counted from 1/);
  expect(refusal("Solo b1 beat 33")).toBe("A bar has at most 32 beats.");
  for (const backwards of ["Ch3-Ch1", "Solo b9-b8", "Solo b8 beat 4-3"]) {
    expect(refusal(backwards)).toMatch(/^The end comes before the start/);
  }
  expect(refusal("V1".repeat(5000))).toMatch(/at most 500 characters/);
});

test("a section is found by its own name before anything it could also mean", () => {
  const odd = form("Intro", "Intro b2", "Pre-Chorus", "Tag 2nd time", "whole", "1:42");
  expect(parseWhere("intro b2", odd)).toEqual({ ok: true, value: { from: { section: "s1" } } });
  expect(parseWhere("pre-chorus", odd)).toEqual({ ok: true, value: { from: { section: "s2" } } });
  expect(parseWhere("tag 2nd time", odd)).toEqual({ ok: true, value: { from: { section: "s3" } } });
  expect(formatWhere({ from: { section: "s0", bar: 2 } }, odd)).toBe('"Intro" b2');
  expect(formatWhere({}, form("whole"))).toBe("whole");
});

test("a section called like a bar never takes the end of a stretch", () => {
  const odd = form("V1", "b8");
  const where: Where = { from: { section: "s0", bar: 1 }, to: { section: "s0", bar: 8 } };
  expect(formatWhere(where, odd)).toBe('"V1" b1-"V1" b8');
  expect(parseWhere('"V1" b1-"V1" b8', odd)).toEqual({ ok: true, value: where });
});

test("sections that share a name are told apart by their number", () => {
  const twice = form("Chorus", "Verse", "chorus");
  expect(formatWhere({ from: { section: "s2", bar: 4 } }, twice)).toBe('"chorus" (2) b4');
  expect(parseWhere('"Chorus" (2) b4', twice)).toEqual({
    ok: true,
    value: { from: { section: "s2", bar: 4 } },
  });
  expect(parseWhere('"Chorus" (3)', twice).ok).toBe(false);
});

test("a place in a section that is gone is still printed", () => {
  expect(formatWhere({ from: { section: "lost", bar: 8 } }, MARZIPAN)).toBe(`${GONE_SECTION} b8`);
});

test("cards sort in playing order", () => {
  const lost: Where = { from: { section: "lost" } };
  const ordered = [
    "whole",
    "V2-Ch3",
    "V2-Ch2",
    "V2",
    "V2 b1-b8",
    "V2 b1",
    "V2 b2 beat 2",
    "V2 2nd time",
    "Ch2",
    "Outro b8",
    "0:10",
    "1:42",
  ]
    .map((text) => {
      const read = parseWhere(text, MARZIPAN);
      return read.ok ? read.value : lost;
    })
    .concat(lost);
  const shuffled = [...ordered].reverse();
  shuffled.sort((a, b) => compareWhere(a, b, MARZIPAN));
  expect(shuffled.map((where) => formatWhere(where, MARZIPAN))).toEqual(
    ordered.map((where) => formatWhere(where, MARZIPAN)),
  );
});
