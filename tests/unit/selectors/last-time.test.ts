import { expect, test } from "vitest";
import type { Chair } from "#shared/board/band.ts";
import type { Slip, Take } from "#shared/board/take.ts";
import { lastTime } from "#shared/selectors/last-time.ts";
import { CHAIRS } from "#tests/support/histories.ts";
import { aCard, aRun, aSong, holderOf } from "#tests/support/ready-song.ts";

const chairs = CHAIRS.map(
  (id): Chair => ({ id, name: id, short: id, instrument: "other", holder: holderOf(id), order: id }),
);
const names = { member: (id: string) => id, chair: (id: string) => id };
const slip = (chair: string | null, card: string | null, severity: Slip["severity"]): Slip => ({
  chair,
  card,
  severity,
  at: 0,
  writer: "phone",
});
const read = (takes: readonly Take[], most = 3) =>
  lastTime(
    {
      file: aSong({ cards: [aCard("mine", { text: "Choke" })], takes }),
      chairs,
      gigs: [],
      names,
      timeZone: "UTC",
    },
    new Set(["gt"]),
    most,
  );

test("one's own slips come first, then the worst, and the rest is counted", () => {
  const run = aRun(60, {
    slips: [
      slip("dr", null, 2),
      slip("bs", null, 1),
      slip(null, "mine", 0.5),
      slip("gt", null, 1),
      slip(null, null, 1),
    ],
  });
  const last = read([run]);
  expect(last?.slips.map(({ about }) => about)).toEqual(["gt", "'Choke'", "dr"]);
  expect(last?.more).toBe(2);
});

test("the last time is a run, a gig or a drill, not somebody's work alone", () => {
  const solo = aRun(61, { kind: "solo", occasion: "s:tomasz:2026-03-03", id: "s:tomasz:2026-03-03/song/1" });
  expect(read([aRun(55), aRun(60), solo])?.reading.day).toBe("2026-03-02");
});

test("a song that was never played has no last time", () => {
  expect(read([])).toBeNull();
});
