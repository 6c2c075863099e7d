import { expect, test } from "vitest";
import { fileName } from "#client/pieces/save-file.ts";

test("a band's name becomes a file name that every system takes", () => {
  expect(fileName("Six Spare Fuses", "board", "2026-03-05", "json")).toBe(
    "six-spare-fuses-board-2026-03-05.json",
  );
  expect(fileName("  Öl/Pier\\Nine: ", "repertoire", "2026-03-05", "csv")).toBe(
    "öl-pier-nine-repertoire-2026-03-05.csv",
  );
  expect(fileName("???", "board", "2026-03-05", "json")).toBe("board-2026-03-05.json");
});
