import type { Board } from "#shared/board/board.ts";
import { NOON } from "#tests/support/command-bench.ts";
import { type CommandCase, gone, invalid, MEMBER } from "./case.ts";

const DAY = "2026-03-11";
const evening = (board: Board) => board.rehearsals.find(({ day }) => day === DAY);
const forbidden = (args: unknown) => ({ code: "forbidden", args, as: MEMBER }) as const;

export const EVENING_CASES: Readonly<Record<string, CommandCase>> = {
  planRehearsal: {
    args: { day: "2026-03-18", start: "20:00", booked: 90, packDown: 5, place: "Cellar room" },
    says: (board) => board.rehearsals.find(({ day }) => day === "2026-03-18"),
    expected: { start: "20:00", booked: 90, setUp: 15, pause: 10, packDown: 5, gig: null, plan: [] },
    refused: [
      invalid({ day: "2026-02-30" }),
      invalid({ day: DAY, start: "25:00" }),
      invalid({ day: DAY, booked: 30 }),
      invalid({ day: "2026-03-18", setUp: 121 }),
      gone({ day: DAY, gig: "cellar" }),
    ],
  },
  startRehearsal: {
    args: { day: DAY },
    says: (board) => evening(board)?.startedAt !== null,
    expected: true,
    refused: [invalid({ day: "today" })],
  },
  endRehearsal: {
    args: { day: "2026-03-04" },
    says: (board) => board.rehearsals.find(({ day }) => day === "2026-03-04")?.endedAt !== null,
    expected: true,
    refused: [invalid({ day: DAY }), invalid({ day: "2026-04-01" })],
  },
  choosePlan: {
    args: { day: DAY, plan: [{ song: "diesel", runs: 1, cards: ["choke"], section: null, minutes: 8.5 }] },
    says: (board) => evening(board)?.plan,
    expected: [{ song: "diesel", runs: 1, cards: ["choke"], section: null, minutes: 8.5 }],
    refused: [
      gone({ day: DAY, plan: [{ song: "kettle", runs: 1, cards: [], section: null, minutes: 4 }] }),
      invalid({ day: DAY, plan: [{ song: "diesel", runs: 9, cards: [], section: null, minutes: 4 }] }),
    ],
  },
  pinSong: {
    args: { day: DAY, song: "diesel", pin: "must" },
    says: (board) => evening(board)?.pins.get("diesel"),
    expected: "must",
    refused: [
      gone({ day: DAY, song: "kettle", pin: "must" }),
      invalid({ day: DAY, song: "diesel", pin: "perhaps" }),
    ],
  },
  sayWhoIsHere: {
    args: { day: DAY, person: "minjae", here: true, from: NOON },
    as: MEMBER,
    says: (board) => evening(board)?.attendance.get("minjae"),
    expected: { here: true, from: NOON, to: null },
    refused: [
      gone({ day: DAY, person: "karim", here: false }),
      invalid({ day: DAY, person: "minjae", here: true, from: NOON, to: NOON - 1 }),
    ],
  },
  standIn: {
    args: { day: DAY, chair: "bass", member: "lucia" },
    says: (board) => evening(board)?.standIns.get("bass"),
    expected: "lucia",
    refused: [
      gone({ day: DAY, chair: "organ", member: "lucia" }),
      gone({ day: DAY, chair: "bass", member: "karim" }),
    ],
  },
  sayAway: {
    args: { person: "minjae", from: "2026-04-01", to: "2026-04-10" },
    as: MEMBER,
    says: (board, run) => board.aways.find(({ id }) => id === run),
    expected: { person: "minjae", from: "2026-04-01", to: "2026-04-10", by: "minjae" },
    refused: [
      forbidden({ person: "lucia", from: "2026-04-01", to: "2026-04-01" }),
      invalid({ person: "minjae", from: "2026-04-02", to: "2026-04-01" }),
      { ...gone({ person: "karim", from: "2026-04-01", to: "2026-04-02" }), as: {} },
    ],
  },
  withdrawAway: {
    args: { away: "porto" },
    says: (board) => board.aways,
    expected: [],
    refused: [
      gone({ away: "lisbon" }),
      { code: "forbidden", args: { away: "porto" }, as: { ...MEMBER, member: "karim" } },
    ],
  },
  cancelRehearsal: {
    args: { id: DAY },
    says: (board) => board.rehearsals.some(({ day }) => day === DAY),
    expected: false,
    refused: [gone({ id: "2026-03-25" })],
  },
  restoreRehearsal: {
    args: { id: "2026-03-25" },
    says: (board) => board.rehearsals.some(({ day }) => day === "2026-03-25"),
    expected: true,
    refused: [gone({ id: DAY })],
  },
};
