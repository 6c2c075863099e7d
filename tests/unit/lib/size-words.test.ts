import { expect, test } from "vitest";
import { sizeWords } from "#shared/lib/size-words.ts";

// Decimal prefixes: IEC 80000-13 with the SI brochure, section 3.1.
test.each([
  [0, "0 kB"],
  [12, "under 1 kB"],
  [1499, "1 kB"],
  [640_000, "640 kB"],
  [999_400, "999 kB"],
  [999_600, "1.0 MB"],
  [1_240_000, "1.2 MB"],
  [9_960_000, "10 MB"],
  [34_400_000, "34 MB"],
])("%i bytes read as %s", (bytes, words) => {
  expect(sizeWords(bytes)).toBe(words);
});
