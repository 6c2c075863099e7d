import { NOON } from "../command-bench.ts";
import {
  type CommandCase,
  conflict,
  detail,
  diesel,
  gone,
  has,
  invalid,
  MEMBER,
  SLOT,
  take,
} from "./case.ts";

export const DETAIL_CASES: Readonly<Record<string, CommandCase>> = {
  addDetail: {
    args: { song: "diesel", text: " Lay out in verse 2 ", right: "You hear the room", chairs: ["bass"] },
    says: (board, run) => detail(run)(board),
    expected: { text: "Lay out in verse 2", right: "You hear the room", chairs: ["bass"], weight: "lift" },
    refused: [
      invalid({ song: "diesel", text: "   " }),
      invalid({ song: "diesel", text: "x".repeat(4001) }),
      gone({ song: "kettle", text: "A" }),
      gone({ song: "diesel", text: "A", chairs: ["organ"] }),
    ],
  },
  rewordDetail: {
    args: { card: "choke", field: "text", text: "Choke on the and of 4" },
    says: detail("choke"),
    expected: { text: "Choke on the and of 4" },
    refused: [
      gone({ card: "push", field: "text", text: "A" }),
      invalid({ card: "choke", field: "text", text: " " }),
    ],
  },
  reviseDetail: {
    args: { card: "choke", fields: { weight: "polish", chairs: ["drums", "bass"], without: "bass" } },
    says: detail("choke"),
    expected: { weight: "polish", chairs: ["drums", "bass"], without: "bass", text: "Choke on 4-and" },
    refused: [gone({ card: "push", fields: {} }), gone({ card: "choke", fields: { chairs: ["organ"] } })],
  },
  describeGrid: {
    args: { card: "choke", grid: { steps: 8, perBeat: 2, rows: [{ chair: "drums", hits: "x..x..X." }] } },
    says: detail("choke"),
    expected: {
      grid: { steps: 8, perBeat: 2, rows: [{ chair: "drums", hits: "x..x..X." }] },
      text: "Choke on 4-and",
    },
    refused: [
      gone({ card: "push", grid: null }),
      gone({ card: "choke", grid: { steps: 4, perBeat: 1, rows: [{ chair: "organ", hits: "x..." }] } }),
      invalid({
        card: "choke",
        grid: { steps: 8, perBeat: 3, rows: [{ chair: "drums", hits: "x..x..X." }] },
      }),
      invalid({ card: "choke", grid: { steps: 8, perBeat: 2, rows: [{ chair: "drums", hits: "x..x" }] } }),
      invalid({ card: "choke", grid: { steps: 8, perBeat: 2, rows: [] } }),
      invalid({ card: "choke", grid: null, of: "theirs" }),
      invalid({
        card: "choke",
        of: "recorded",
        grid: { steps: 4, perBeat: 1, rows: [{ chair: "drums", voice: "kick", hits: "x..-" }] },
      }),
      invalid({
        card: "choke",
        grid: { steps: 4, perBeat: 1, rows: [{ chair: "drums", voice: "spoons", hits: "x..." }] },
      }),
    ],
  },
  describeShape: {
    args: {
      card: "root",
      shape: { frets: [0, 2, 2, 1, 0, 0], fingers: [null, 2, 3, 1, null, null], capo: 5, tuning: "DADGAD" },
    },
    says: detail("root"),
    expected: {
      shape: { frets: [0, 2, 2, 1, 0, 0], fingers: [null, 2, 3, 1, null, null], capo: 5, tuning: "DADGAD" },
    },
    refused: [
      gone({ card: "push", shape: null }),
      invalid({
        card: "root",
        shape: { frets: [0, 2, 2, 1], fingers: [null, null, null, null], capo: 0, tuning: "DADGAD" },
      }),
      invalid({ card: "root", shape: { frets: [0, 2, 25, 1], fingers: [null, null, null, null], capo: 0 } }),
      invalid({ card: "root", shape: { frets: [0, 2, 2], fingers: [null, null, null], capo: 0 } }),
    ],
  },
  describeSide: {
    args: { card: "choke", side: "ending", value: { how: "hit", cue: "drums", lastBeat: 4.5, times: 3 } },
    says: detail("choke"),
    expected: { sides: { ending: { how: "hit", cue: "drums", lastBeat: 4.5, times: 3 } } },
    refused: [
      gone({ card: "push", side: "tone", value: null }),
      invalid({ card: "choke", side: "lights", value: null }),
      invalid({ card: "choke", side: "tone", value: {} }),
      invalid({ card: "choke", side: "tone", value: { gain: 11 } }),
      invalid({ card: "choke", side: "harmony", value: { cutWord: "two words" } }),
      invalid({ card: "choke", side: "hand", value: { from: 7, to: 5 } }),
    ],
  },
  placeDetail: {
    args: { card: "root", chairs: ["bass"] },
    says: detail("root"),
    expected: { chairs: ["bass"] },
    refused: [
      conflict({ card: "choke", chairs: ["bass"] }),
      gone({ card: "root", chairs: ["organ"] }),
      invalid({ card: "root", chairs: [] }),
    ],
  },
  moveDetail: {
    args: { card: "root", index: 0 },
    says: (board) => diesel(board)?.cards.map(({ id }) => id),
    expected: ["root", "choke"],
    refused: [gone({ card: "push", index: 0 })],
  },
  markDetail: {
    args: { card: "choke", member: "lucia", level: 3 },
    says: (board) => diesel(board)?.statuses.get("choke")?.get("lucia"),
    expected: { level: 3, from: 2 },
    refused: [
      gone({ card: "push", member: "lucia", level: 1 }),
      gone({ card: "choke", member: "karim", level: 1 }),
      invalid({ card: "choke", member: "lucia", level: 4 }),
      { code: "forbidden", args: { card: "choke", member: "lucia", level: 3 }, as: MEMBER },
    ],
  },
  logTake: {
    args: { ...take, slips: [{ chair: "bass", severity: 2 }] },
    says: (board) => diesel(board)?.takes.find(({ occasion }) => occasion === "r:2026-03-05"),
    expected: { no: 1, feel: "clean", slips: [{ chair: "bass", card: null, severity: 2 }] },
    refused: [
      gone({ ...take, song: "kettle" }),
      invalid({ ...take, at: NOON + 86_400_000 }),
      invalid({ ...take, occasion: "yesterday" }),
      invalid({ ...take, tempoStart: 0 }),
    ],
  },
  flagSlip: {
    args: { song: "diesel", take: SLOT, chair: "bass", severity: 2 },
    as: MEMBER,
    says: (board) =>
      diesel(board)?.takes[0]?.slips.map(({ chair, card, severity }) => [chair, card, severity]),
    expected: [
      [null, "choke", 1],
      ["bass", null, 2],
    ],
    refused: [
      gone({ song: "diesel", take: "r:2026-03-04/diesel/9", severity: 1 }),
      gone({ song: "kettle", take: SLOT, severity: 1 }),
      invalid({ song: "diesel", take: SLOT, severity: 3 }),
    ],
  },
  withdrawTake: {
    args: { song: "diesel", take: SLOT },
    says: (board) => diesel(board)?.takes,
    expected: [],
    refused: [
      gone({ song: "diesel", take: "r:2026-03-04/diesel/9" }),
      { code: "forbidden", args: { song: "diesel", take: SLOT }, as: MEMBER },
    ],
  },
  removeDetail: {
    args: { id: "choke" },
    says: has("choke"),
    expected: false,
    refused: [gone({ id: "push" })],
  },
  restoreDetail: {
    args: { id: "push" },
    says: detail("push"),
    expected: { text: "Push into the chorus" },
    refused: [gone({ id: "choke" })],
  },
};
