import { NOON } from "../command-bench.ts";
import { type CommandCase, conflict, detail, diesel, gone, invalid, MEMBER, SLOT, sections } from "./case.ts";

/** After everything the band of these cases did. */
const PLANNED = NOON + 86_400_000;

const tempo = { put: "value", map: "songs", key: "diesel/tempo", value: 118, seen: 112 };
const wording = {
  put: "wording",
  card: "choke",
  field: "text",
  text: "Choke on the and of 4",
  was: "Choke on 4-and",
  base: { phone: PLANNED },
};
const mark = {
  put: "mark",
  card: "choke",
  member: "lucia",
  level: 1,
  anchor: 7,
  from: 2,
  fromAnchor: 8,
  seenAt: PLANNED,
};
const band = { put: "value", map: "band", key: "name", value: "Five Fuses", seen: "Six Spare Fuses" };
const run = { put: "withdrawal", map: "takes", key: `${SLOT}/phone`, at: NOON };
const take = { put: "value", map: "takes", key: `${SLOT}/phone`, value: null };

export const HISTORY_CASES: Readonly<Record<string, CommandCase>> = {
  restoreSection: {
    args: { song: "diesel", section: "coda" },
    says: sections,
    expected: [
      ["Verse", 8],
      ["Outro", 4],
      ["Coda", 2],
    ],
    refused: [gone({ song: "diesel", section: "verse" }), gone({ song: "kettle", section: "coda" })],
  },
  putBack: {
    args: { writes: [tempo, wording] },
    says: (board) => [diesel(board)?.song.tempo, detail("choke")(board)?.text],
    expected: [118, "Choke on the and of 4"],
    refused: [
      conflict({ writes: [] }),
      invalid({ writes: [{ ...tempo, key: "diesel" }] }),
      invalid({ writes: [{ ...tempo, map: "migrations" }] }),
      invalid({ writes: [{ ...tempo, value: Number.NaN }] }),
      { code: "forbidden", args: { writes: [mark] }, as: MEMBER },
      { code: "forbidden", args: { writes: [band] }, as: MEMBER },
      { code: "forbidden", args: { writes: [take] }, as: MEMBER },
    ],
  },
  restoreBoard: {
    args: { moment: 1, writes: [tempo, band, mark, run] },
    says: (board) => [
      diesel(board)?.song.tempo,
      board.band.name,
      diesel(board)?.statuses.get("choke")?.get("lucia")?.level,
      diesel(board)?.takes.length,
    ],
    expected: [118, "Five Fuses", 1, 0],
    refused: [
      conflict({ moment: 1, writes: [] }),
      invalid({ moment: 1, writes: [{ ...band, value: "x".repeat(4_000_001) }] }),
      { code: "forbidden", args: { moment: 1, writes: [tempo] }, as: MEMBER },
    ],
  },
};
