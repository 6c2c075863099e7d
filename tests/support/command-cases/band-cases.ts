import { type CommandCase, chair, conflict, gone, has, invalid, MEMBER, order, RUN } from "./case.ts";

const VOICE = { lowest: 53, comfortLow: 55, comfortHigh: 70, highest: 74 };

export const BAND_CASES: Readonly<Record<string, CommandCase>> = {
  startBand: {
    args: { name: "Six Fuses", timeZone: "Asia/Seoul" },
    says: ({ band }) => [band.name, band.timeZone],
    expected: ["Six Fuses", "Asia/Seoul"],
    refused: [
      invalid({ name: "Six Fuses", timeZone: "Mars/Olympus" }),
      invalid({ name: "  ", timeZone: "UTC" }),
      { code: "forbidden", args: { name: "Mine", timeZone: "UTC" }, as: MEMBER },
    ],
  },
  adjustSettings: {
    args: { changes: { togetherDays: 30, "kindWeight.solo": 0.5 } },
    says: ({ band }) => [band.settings.togetherDays, band.settings.kindWeight.solo],
    expected: [30, 0.5],
    refused: [
      invalid({ changes: { togetherDays: "soon" } }),
      invalid({ changes: { togetherDays: -1 } }),
      invalid({ changes: { H0: 0 } }),
      invalid({ changes: { togetherNights: 30 } }),
      invalid({ changes: { togetherNights: null } }),
      invalid({ settings: { togetherDays: "soon" } }),
      { code: "forbidden", args: { settings: {} }, as: MEMBER },
    ],
  },
  addChair: {
    args: { name: "Keys", instrument: "keys", holder: "lucia" },
    says: (board, run) => chair(run)(board),
    expected: { name: "Keys", short: "Keys", holder: "lucia" },
    refused: [
      conflict({ name: "drums", instrument: "drums" }),
      gone({ name: "Keys", instrument: "keys", holder: "karim" }),
      invalid({ name: "Keys", instrument: "spoons" }),
      invalid({ name: "Keys", instrument: "keys", short: "Keyboard" }),
    ],
  },
  addLineUp: {
    args: {
      chairs: [
        { name: "drums", short: "Dr", instrument: "drums" },
        { name: "Keys", short: "K", instrument: "keys" },
      ],
    },
    says: (board) => board.chairs.map(({ name }) => name),
    expected: ["Drums", "Bass", "Keys"],
    refused: [invalid({ chairs: [] })],
  },
  reviseChair: {
    args: { chair: "bass", name: "Upright", short: "Up" },
    says: chair("bass"),
    expected: { name: "Upright", short: "Up", instrument: "bass" },
    refused: [gone({ chair: "organ", name: "A" }), conflict({ chair: "bass", name: "Drums" })],
  },
  giveChair: {
    args: { chair: "bass", holder: "" },
    says: chair("bass"),
    expected: { holder: null },
    refused: [gone({ chair: "organ", holder: "lucia" }), gone({ chair: "bass", holder: "karim" })],
  },
  moveChair: {
    args: { chair: "bass", index: 0 },
    says: order,
    expected: ["bass", "drums"],
    refused: [gone({ chair: "organ", index: 0 })],
  },
  addPerson: {
    args: { name: "Ifeoma Adisalu", chairs: ["bass"] },
    says: (board, run) => [board.people.get(run)?.name, chair("bass")(board)?.holder],
    expected: ["Ifeoma Adisalu", RUN],
    refused: [
      conflict({ name: "LUCIA borrasco" }),
      gone({ name: "Ifeoma", chairs: ["organ"] }),
      invalid({ name: "" }),
    ],
  },
  revisePerson: {
    args: { person: "minjae", dep: true, voice: VOICE },
    says: (board) => board.people.get("minjae"),
    expected: { dep: true, voice: VOICE },
    refused: [
      gone({ person: "karim" }),
      conflict({ person: "minjae", name: "Lucía Borrasco" }),
      invalid({ person: "minjae", voice: { ...VOICE, comfortLow: 70 } }),
      invalid({ person: "minjae", voice: { ...VOICE, lowest: 52.5 } }),
      { code: "forbidden", args: { person: "lucia", voice: VOICE }, as: MEMBER },
    ],
  },
  removeChair: { args: { id: "bass" }, says: order, expected: ["drums"], refused: [gone({ id: "organ" })] },
  restoreChair: {
    args: { id: "organ" },
    says: order,
    expected: ["drums", "bass", "organ"],
    refused: [gone({ id: "bass" })],
  },
  removePerson: {
    args: { id: "minjae" },
    says: has("minjae"),
    expected: false,
    refused: [gone({ id: "karim" })],
  },
  restorePerson: {
    args: { id: "karim" },
    says: has("karim"),
    expected: true,
    refused: [gone({ id: "minjae" })],
  },
};
