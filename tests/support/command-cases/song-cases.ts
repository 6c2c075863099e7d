import { NOON } from "../command-bench.ts";
import { type CommandCase, conflict, diesel, gone, has, invalid, LONG, sections } from "./case.ts";

const MELODY = { key: "Em", low: 55, typical: 64, high: 70 };

const BAR = { steps: 4, perBeat: 1, rows: [{ chair: "drums", voice: "kick", hits: "x..." }] };
const IMPORTED = {
  song: { title: "Paper Lantern", tempo: 96 },
  sections: [
    { name: "Intro", bars: 4 },
    { name: "Verse", bars: 8, metre: "6/8", tempo: 80, key: "E" },
  ],
  textures: [{ section: 1, chair: "drums", changes: [{ bar: 3, pass: null, presence: "full" }] }],
  details: [
    { text: "Kick on 1", chairs: ["drums"], kind: "groove", section: 1, grid: BAR },
    {
      text: "Crashes: Verse 2",
      chairs: ["drums"],
      kind: "cymbals",
      section: null,
      grid: null,
      cymbals: [{ section: 1, word: "ride" }],
    },
  ],
};

export const SONG_CASES: Readonly<Record<string, CommandCase>> = {
  addSong: {
    args: { title: "Paper Lantern", tempo: 96 },
    says: (board, run) => board.songs.get(run)?.song,
    expected: { title: "Paper Lantern", tempo: 96, stage: "learning" },
    refused: [
      conflict({ title: "marzipan DIESEL " }),
      invalid({ title: "" }),
      invalid({ title: LONG }),
      invalid({ title: "Slow", tempo: 0 }),
    ],
  },
  addSongs: {
    args: {
      stage: "candidate",
      songs: [
        { title: "One More Lamp" },
        { title: "Second Lamp", key: "A", form: [{ name: "Verse", bars: 8, repeats: 2 }] },
      ],
    },
    says: (board) =>
      [...board.songs.values()]
        .filter(({ song }) => song.stage === "candidate")
        .map(({ song, sections }) => [song.title, sections.map(({ repeats }) => repeats)]),
    expected: [
      ["One More Lamp", []],
      ["Second Lamp", [2]],
    ],
    refused: [
      invalid({ stage: "candidate", songs: [] }),
      invalid({ stage: "famous", songs: [{ title: "A" }] }),
    ],
  },
  importSong: {
    args: IMPORTED,
    says: (board, run) => {
      const file = board.songs.get(run);
      const card = file?.cards.find(({ grid }) => grid);
      return [
        file?.song.title,
        file?.sections.map(({ name, bars, metre, tempo, key }) => [name, bars, metre, tempo, key]),
        [...(file?.textures.values() ?? [])],
        [card?.text, card?.where.from?.section === file?.sections[1]?.id, card?.grid, card?.recordedGrid],
        file?.cards.map(({ text, source }) => [text, source]),
        Object.values(Object(file?.cards[0]?.sides?.cymbals?.plan)),
      ];
    },
    expected: [
      "Paper Lantern",
      [
        ["Intro", 4, "", null, ""],
        ["Verse", 8, "6/8", 80, "E"],
      ],
      [[{ bar: 3, pass: null, presence: "full" }]],
      ["Kick on 1", true, BAR, BAR],
      [
        ["Crashes: Verse 2", "as recorded"],
        ["Kick on 1", "as recorded"],
      ],
      ["ride"],
    ],
    refused: [
      conflict({ ...IMPORTED, song: { title: "Marzipan Diesel" } }),
      gone({ ...IMPORTED, details: [{ ...IMPORTED.details[0], chairs: ["organ"] }] }),
      invalid({ ...IMPORTED, song: { title: "" } }),
      invalid({
        ...IMPORTED,
        details: [{ ...IMPORTED.details[1], cymbals: [{ section: 1, word: "gong" }] }],
      }),
      invalid({ ...IMPORTED, details: [{ ...IMPORTED.details[0], section: 2 }] }),
      invalid({ ...IMPORTED, details: [{ ...IMPORTED.details[0], grid: { ...BAR, steps: 5 } }] }),
      invalid({
        ...IMPORTED,
        textures: [{ section: 0, chair: "drums", changes: [{ bar: 5, pass: null, presence: "full" }] }],
      }),
    ],
  },
  reviseSong: {
    args: {
      song: "diesel",
      fields: { key: "Fm", melody: MELODY },
      learnAgain: true,
    },
    says: (board) => [
      diesel(board)?.song.key,
      (diesel(board)?.song.since.key ?? 0) > NOON,
      diesel(board)?.song.melody,
    ],
    expected: ["Fm", true, MELODY],
    refused: [
      gone({ song: "kettle", fields: {} }),
      conflict({ song: "diesel", fields: { title: "Umbrella Season" } }),
      invalid({ song: "diesel", fields: { tempo: 1000 } }),
      invalid({ song: "diesel", fields: { melody: { ...MELODY, typical: 71 } } }),
      invalid({
        song: "diesel",
        fields: {
          melody: {
            key: "Em",
            histogram: [
              [62, 1],
              [60, 2],
            ],
          },
        },
      }),
      invalid({ song: "diesel", fields: { melody: { key: "Em", histogram: [] } } }),
      invalid({ song: "diesel", fields: { shapeMatters: "a lot" } }),
    ],
  },
  moveSong: {
    args: { song: "umbrella", index: 0 },
    says: (board) =>
      (board.songs.get("umbrella")?.song.order ?? "z") < (board.songs.get("diesel")?.song.order ?? ""),
    expected: true,
    refused: [gone({ song: "kettle", index: 0 }), invalid({ song: "diesel", index: -1 })],
  },
  writeForm: {
    args: {
      song: "umbrella",
      sections: [
        { name: "Intro", bars: 4 },
        { name: "Verse", bars: 8, repeats: 2 },
      ],
    },
    says: (board) => board.songs.get("umbrella")?.sections.map(({ name, repeats }) => [name, repeats]),
    expected: [
      ["Intro", 1],
      ["Verse", 2],
    ],
    refused: [
      conflict({ song: "diesel", sections: [{ name: "Intro", bars: 4 }] }),
      gone({ song: "kettle", sections: [{ name: "Intro", bars: 4 }] }),
      invalid({ song: "umbrella", sections: [] }),
      invalid({ song: "umbrella", sections: [{ name: "Intro", bars: -4 }] }),
    ],
  },
  addSection: {
    args: { song: "diesel", name: "Chorus", bars: 8, repeats: 3, index: 1 },
    says: (board) => [sections(board), diesel(board)?.sections[1]?.repeats],
    expected: [
      [
        ["Verse", 8],
        ["Chorus", 8],
        ["Outro", 4],
      ],
      3,
    ],
    refused: [gone({ song: "kettle", name: "A", bars: 1 }), invalid({ song: "diesel", name: "A", bars: 0 })],
  },
  reviseSection: {
    args: {
      song: "diesel",
      section: "verse",
      bars: 16,
      name: "Long verse",
      repeats: 2,
      metre: "6/8",
      tempo: 96,
    },
    says: (board) => {
      const [verse] = diesel(board)?.sections ?? [];
      return [sections(board), verse?.repeats, verse?.metre, verse?.tempo];
    },
    expected: [
      [
        ["Long verse", 16],
        ["Outro", 4],
      ],
      2,
      "6/8",
      96,
    ],
    refused: [
      gone({ song: "diesel", section: "bridge" }),
      invalid({ song: "diesel", section: "verse", bars: 1.5 }),
      invalid({ song: "diesel", section: "verse", repeats: 0 }),
      invalid({ song: "diesel", section: "verse", metre: "four" }),
    ],
  },
  insertBars: {
    args: { song: "diesel", section: "verse", at: 9, count: 4 },
    says: sections,
    expected: [
      ["Verse", 12],
      ["Outro", 4],
    ],
    refused: [
      gone({ song: "diesel", section: "bridge", at: 1, count: 1 }),
      invalid({ song: "diesel", section: "verse", at: 10, count: 1 }),
      invalid({ song: "diesel", section: "verse", at: 1, count: 999 }),
    ],
  },
  removeBars: {
    args: { song: "diesel", section: "verse", at: 7, count: 2 },
    says: sections,
    expected: [
      ["Verse", 6],
      ["Outro", 4],
    ],
    refused: [
      gone({ song: "diesel", section: "bridge", at: 1, count: 1 }),
      invalid({ song: "diesel", section: "verse", at: 8, count: 2 }),
      invalid({ song: "diesel", section: "verse", at: 1, count: 8 }),
    ],
  },
  splitSection: {
    args: { song: "diesel", section: "verse", at: 5, name: "Verse, second half" },
    says: sections,
    expected: [
      ["Verse", 4],
      ["Verse, second half", 4],
      ["Outro", 4],
    ],
    refused: [
      gone({ song: "diesel", section: "bridge", at: 2, name: "B" }),
      invalid({ song: "diesel", section: "verse", at: 1, name: "B" }),
      invalid({ song: "diesel", section: "verse", at: 9, name: "B" }),
    ],
  },
  joinSections: {
    args: { song: "diesel", section: "verse" },
    says: sections,
    expected: [["Verse", 12]],
    refused: [gone({ song: "diesel", section: "bridge" }), invalid({ song: "diesel", section: "outro" })],
  },
  moveSection: {
    args: { song: "diesel", section: "outro", index: 0, learnAgain: true },
    says: (board) => [sections(board), (diesel(board)?.song.since.form ?? 0) > NOON],
    expected: [
      [
        ["Outro", 4],
        ["Verse", 8],
      ],
      true,
    ],
    refused: [gone({ song: "diesel", section: "bridge", index: 0 })],
  },
  removeSection: {
    args: { song: "diesel", section: "verse" },
    says: sections,
    expected: [["Outro", 4]],
    refused: [gone({ song: "diesel", section: "bridge" })],
  },
  castPart: {
    args: { song: "diesel", chair: "bass", needed: false, holder: "lucia" },
    says: (board) => diesel(board)?.castings.get("bass"),
    expected: { plays: true, needed: false, holder: "lucia", share: 1 },
    refused: [
      gone({ song: "kettle", chair: "bass" }),
      gone({ song: "diesel", chair: "organ" }),
      gone({ song: "diesel", chair: "bass", holder: "karim" }),
      invalid({ song: "diesel", chair: "bass", share: 0 }),
    ],
  },
  declareNothingSpecial: {
    args: { song: "diesel", chair: "bass", member: "minjae" },
    says: (board) => diesel(board)?.castings.get("bass")?.nothingSpecial,
    expected: "minjae",
    refused: [gone({ song: "diesel", chair: "organ", member: "minjae" })],
  },
  rule: {
    args: { song: "diesel", about: "ending", source: "ours", text: "Cold, on the one", learnAgain: true },
    says: (board) => [
      diesel(board)?.song.ending,
      diesel(board)?.rulings.at(-1)?.text,
      diesel(board)?.rulings.at(-1)?.by,
    ],
    expected: ["Cold, on the one", "Cold, on the one", "lucia"],
    refused: [
      gone({ song: "kettle", about: "key", source: "ours", text: "D" }),
      gone({ song: "diesel", card: "push", about: "detail", source: "ours", text: "D" }),
      invalid({ song: "diesel", about: "ending", source: "ours", text: LONG }),
      invalid({ song: "diesel", about: "ending", source: "ours", text: " " }),
    ],
  },
  withdrawRuling: {
    args: { ruling: "sticks" },
    says: (board) => diesel(board)?.rulings,
    expected: [],
    refused: [
      gone({ ruling: "nobody ruled" }),
      { code: "forbidden", args: { ruling: "sticks" }, as: { role: "member", member: "minjae" } },
      { code: "forbidden", args: { ruling: "sticks" }, as: { role: "member", member: null } },
    ],
  },
  settleQuestion: {
    args: { question: "hand" },
    says: (board) => diesel(board)?.questions[0]?.settled,
    expected: true,
    refused: [
      gone({ question: "nobody asked" }),
      { code: "forbidden", args: { question: "hand" }, as: { role: "member", member: "lucia" } },
    ],
  },
  askQuestion: {
    args: {
      song: "diesel",
      card: "root",
      chair: "bass",
      gig: "harbour",
      to: "minjae",
      text: " Root of the key or the chord? ",
    },
    says: (board, run) => diesel(board)?.questions.find(({ id }) => id === run),
    expected: {
      card: "root",
      chair: "bass",
      gig: "harbour",
      to: "minjae",
      ruling: null,
      text: "Root of the key or the chord?",
      by: "lucia",
      answers: [],
    },
    refused: [
      gone({ song: "kettle", text: "How fast?" }),
      gone({ song: "diesel", card: "push", text: "How hard?" }),
      gone({ song: "umbrella", card: "choke", text: "How hard?" }),
      gone({ song: "diesel", chair: "organ", text: "How hard?" }),
      gone({ song: "diesel", gig: "cellar", text: "How hard?" }),
      gone({ song: "diesel", to: "karim", text: "How hard?" }),
      gone({ song: "diesel", ruling: "nobody ruled", text: "How hard?" }),
      invalid({ song: "diesel", text: "  " }),
      invalid({ song: "diesel", text: "x".repeat(501) }),
    ],
  },
  answerQuestion: {
    args: { question: "hand", text: " The left. " },
    says: (board) => diesel(board)?.questions[0]?.answers.map(({ text, by }) => [text, by]),
    expected: [["The left.", "lucia"]],
    refused: [
      gone({ question: "nobody asked", text: "Yes." }),
      invalid({ question: "hand", text: " " }),
      invalid({ question: "hand", text: "x".repeat(501) }),
    ],
  },
  withdrawQuestion: {
    args: { question: "hand" },
    says: (board) => diesel(board)?.questions,
    expected: [],
    refused: [
      gone({ question: "nobody asked" }),
      { code: "forbidden", args: { question: "hand" }, as: { role: "member", member: "lucia" } },
      { code: "forbidden", args: { question: "hand" }, as: { role: "member", member: null } },
    ],
  },
  removeSong: {
    args: { id: "diesel" },
    says: has("diesel"),
    expected: false,
    refused: [gone({ id: "kettle" })],
  },
  restoreSong: {
    args: { id: "kettle" },
    says: has("kettle"),
    expected: true,
    refused: [gone({ id: "diesel" })],
  },
};
