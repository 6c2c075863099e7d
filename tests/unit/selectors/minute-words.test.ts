import { expect, test } from "vitest";
import { lengthSentence, unknownSentence } from "#shared/selectors/minute-words.ts";

const outlook = (planned: number, contracted: number, unknownLength: readonly string[] = []) => ({
  minutes: { ready: 0, planned, contracted, unknownLength },
  songs: [{ song: "a", title: "A", ready: false, waived: 0, reason: null, length: 60 }],
});

test("what is over or short is named to the second; nothing is neither", () => {
  expect(lengthSentence(outlook(25.005, 25))).toBe("25:00 with the gaps, exactly the 25 minutes.");
  expect(lengthSentence(outlook(25.4, 25))).toBe("25:24 with the gaps, 0:24 over the 25 minutes.");
  expect(lengthSentence(outlook(26, 25))).toBe("26:00 with the gaps, 1:00 over the 25 minutes.");
  expect(lengthSentence(outlook(24.25, 25))).toBe("24:15 with the gaps, 0:45 short of the 25 minutes.");
});

test("an empty running order has no length, and unknown lengths are counted", () => {
  expect(lengthSentence({ ...outlook(0, 25), songs: [] })).toBe("");
  expect(unknownSentence(outlook(3, 25))).toBe("");
  expect(unknownSentence(outlook(3, 25, ["a"]))).toBe("1 song without a length counts as 0 minutes.");
  expect(unknownSentence(outlook(3, 25, ["a", "b"]))).toBe("2 songs without a length count as 0 minutes.");
});
