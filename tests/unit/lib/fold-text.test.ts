import fc from "fast-check";
import { expect, test } from "vitest";
import { foldText } from "#shared/lib/fold-text.ts";
import { laws } from "#tests/support/fuzz.ts";

test("case, accents, white space, dashes and typographic quotes make no difference", () => {
  const same = [
    ["Café  Ampère ", "cafe ampere"],
    ["STOP–START", "stop-start"],
    ["“Wait”", '"wait"'],
    ["Lamplighter’s", "lamplighter's"],
    ["ΟΔΟΣ", "οδοσ"],
    ["İstanbul", "istanbul"],
    ["e\u0301tude", "étude"],
  ] as const;
  for (const [a, b] of same) expect(foldText(a)).toBe(foldText(b));
});

test("different letters stay different", () => {
  expect(new Set(["Ost", "Øst", "Oest", "ost 2", "가", "각"].map(foldText)).size).toBe(6);
});

test("folding twice changes nothing more, and text may stand beside other text", () => {
  const text = fc.string({ unit: "grapheme", maxLength: 20 });
  fc.assert(
    fc.property(text, text, (a, b) => {
      expect(foldText(foldText(a))).toBe(foldText(a));
      expect(foldText(`${a} | ${b}`)).toBe(`${foldText(a)} | ${foldText(b)}`.trim());
    }),
    laws(),
  );
});
