import fc from "fast-check";
import { expect, test } from "vitest";
import { fileName } from "#client/pieces/save-file.ts";
import { laws } from "#tests/support/fuzz.ts";

test("a band's name becomes a file name that every system takes", () => {
  expect(fileName("Six Spare Fuses", "board", "2026-03-05", "json")).toBe(
    "six-spare-fuses-board-2026-03-05.json",
  );
  expect(fileName("  Öl/Pier\\Nine: ", "repertoire", "2026-03-05", "csv")).toBe(
    "öl-pier-nine-repertoire-2026-03-05.csv",
  );
  expect(fileName("???", "board", "2026-03-05", "json")).toBe("board-2026-03-05.json");
  expect(fileName("नाव", "grids", "2026-03-05", "mid")).toBe("नाव-grids-2026-03-05.mid");
});

// Common practice, no published source: what Windows, macOS and Linux refuse in names, and their 255 bytes.
test("whatever a song is called, its file has a name that no system refuses", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary", maxLength: 60 }), (title) => {
      const name = fileName(title.repeat(6), "grids", "2026-03-05", "musicxml");
      expect(name).toMatch(/^([\p{L}\p{N}][\p{L}\p{M}\p{N}-]*-)?grids-2026-03-05\.musicxml$/u);
      expect(new TextEncoder().encode(name).length).toBeLessThanOrEqual(255);
    }),
    laws(300),
  );
});
