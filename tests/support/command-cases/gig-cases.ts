import { type CommandCase, gig, gone, has, invalid, MEMBER } from "./case.ts";

export const GIG_CASES: Readonly<Record<string, CommandCase>> = {
  planGig: {
    args: { name: "Market square", date: "2026-06-20", minutes: 60 },
    says: (board, run) => board.gigs.find(({ id }) => id === run),
    expected: { name: "Market square", date: "2026-06-20", minutes: 60, songs: [] },
    refused: [
      invalid({ name: "A", date: "2026-02-30", minutes: 60 }),
      invalid({ name: "A", date: "2026-06-20", minutes: -1 }),
    ],
  },
  reviseGig: {
    args: { gig: "harbour", minutes: 45, date: "2026-04-19", blocks: [25, 20], call: "17:30", arc: [0.5, 1] },
    says: gig,
    expected: {
      minutes: 45,
      date: "2026-04-19",
      name: "Harbour night",
      blocks: [25, 20],
      call: "17:30",
      arc: [0.5, 1],
    },
    refused: [
      gone({ gig: "cellar", minutes: 45 }),
      invalid({ gig: "harbour", call: "25:00" }),
      invalid({ gig: "harbour", arc: [2] }),
      invalid({ gig: "harbour", blocks: [10, 10, 10, 10, 10, 10, 10] }),
    ],
  },
  arrangeGig: {
    args: { gig: "harbour", blocks: [["umbrella"], ["diesel"]] },
    says: (board) => gig(board)?.songs.map(({ song, block }) => [song, block]),
    expected: [
      ["umbrella", 0],
      ["diesel", 1],
    ],
    refused: [
      gone({ gig: "cellar", blocks: [] }),
      gone({ gig: "harbour", blocks: [["kettle"]] }),
      invalid({ gig: "harbour", blocks: [["diesel"], ["diesel"]] }),
    ],
  },
  tellOfNight: {
    args: { gig: "harbour", song: "diesel", leftOut: true, floorDid: "stayed" },
    says: (board) => gig(board)?.told,
    expected: new Map([["diesel", { leftOut: true, floorDid: "stayed" }]]),
    refused: [
      gone({ gig: "cellar", song: "diesel", leftOut: true }),
      gone({ gig: "harbour", song: "kettle", leftOut: true }),
      invalid({ gig: "harbour", song: "diesel", floorDid: "burnt" }),
    ],
  },
  requestForGig: {
    args: { gig: "harbour", song: "umbrella", askedBy: " the host " },
    says: (board) => [gig(board)?.requests, gig(board)?.songs.some(({ song }) => song === "umbrella")],
    expected: [new Map([["umbrella", "the host"]]), false],
    refused: [
      gone({ gig: "cellar", song: "diesel", askedBy: "the host" }),
      gone({ gig: "harbour", song: "kettle", askedBy: "the host" }),
      invalid({ gig: "harbour", song: "diesel", askedBy: "x".repeat(201) }),
    ],
  },
  askForKey: {
    args: { gig: "harbour", song: "diesel", key: "Dm" },
    says: (board) => [gig(board)?.keysAsked, gig(board)?.songs.find(({ song }) => song === "diesel")?.key],
    expected: [new Map([["diesel", { key: "Dm", by: "lucia" }]]), null],
    refused: [
      gone({ gig: "cellar", song: "diesel", key: "Dm" }),
      gone({ gig: "harbour", song: "umbrella", key: "Dm" }),
      invalid({ gig: "harbour", song: "diesel", key: "high" }),
    ],
  },
  pinInGig: {
    args: { gig: "harbour", song: "diesel", pin: "not tonight" },
    says: (board) => [gig(board)?.songs, gig(board)?.banned],
    expected: [[], ["diesel"]],
    refused: [
      gone({ gig: "cellar", song: "diesel", pin: "must" }),
      gone({ gig: "harbour", song: "kettle", pin: "must" }),
      invalid({ gig: "harbour", song: "diesel", pin: "perhaps" }),
    ],
  },
  callSongs: {
    args: { gig: "harbour", songs: ["diesel", "umbrella"] },
    says: (board) => gig(board)?.songs.map(({ song }) => song),
    expected: ["diesel", "umbrella"],
    refused: [gone({ gig: "cellar", songs: [] }), gone({ gig: "harbour", songs: ["kettle"] })],
  },
  dropSong: {
    args: { gig: "harbour", song: "diesel" },
    says: (board) => gig(board)?.songs,
    expected: [],
    refused: [gone({ gig: "cellar", song: "diesel" })],
  },
  moveInGig: {
    args: { gig: "harbour", song: "diesel", index: 0 },
    says: (board) => gig(board)?.songs.map(({ song }) => song),
    expected: ["diesel"],
    refused: [
      gone({ gig: "cellar", song: "diesel", index: 0 }),
      gone({ gig: "harbour", song: "kettle", index: 0 }),
    ],
  },
  tuneForGig: {
    args: { gig: "harbour", song: "diesel", key: "Dm", tempo: 108, tuning: "half step down" },
    says: (board) => gig(board)?.songs[0],
    expected: { key: "Dm", tempo: 108, tuning: "half step down" },
    refused: [gone({ gig: "cellar", song: "diesel" }), invalid({ gig: "harbour", song: "diesel", tempo: 5 })],
  },
  seatForGig: {
    args: { gig: "harbour", chair: "bass", member: "" },
    says: (board) => gig(board)?.lineUp.get("bass"),
    expected: null,
    refused: [
      gone({ gig: "cellar", chair: "bass", member: null }),
      gone({ gig: "harbour", chair: "organ", member: null }),
      gone({ gig: "harbour", chair: "bass", member: "karim" }),
    ],
  },
  waiveGate: {
    args: { gig: "harbour", song: "diesel", gate: "debut", note: "a quiet night" },
    says: (board) => gig(board)?.waivers.map(({ gate, note, by }) => [gate, note, by]),
    expected: [["debut", "a quiet night", "lucia"]],
    refused: [
      gone({ gig: "cellar", song: "diesel", gate: "debut", note: "" }),
      invalid({ gig: "harbour", song: "diesel", gate: "mood", note: "" }),
      { code: "forbidden", args: { gig: "harbour", song: "diesel", gate: "debut", note: "" }, as: MEMBER },
    ],
  },
  cancelGig: {
    args: { id: "harbour" },
    says: has("harbour"),
    expected: false,
    refused: [gone({ id: "cellar" })],
  },
  restoreGig: {
    args: { id: "cellar" },
    says: has("cellar"),
    expected: true,
    refused: [gone({ id: "harbour" })],
  },
};
