import { expect, test } from "vitest";
import * as Y from "yjs";
import { seedDemo } from "#shared/demo/seed-demo.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { readBoard } from "#shared/document/read/board-reader.ts";
import { loadIn } from "#shared/selectors/load-in.ts";
import { gigBand } from "#tests/support/gig-with-dep.ts";

const group = (board: Parameters<typeof loadIn>[0], title: string): readonly string[] =>
  loadIn(board, "harbour")
    ?.find((one) => one.title.startsWith(title))
    ?.lines.map(({ text }) => text) ?? [];

test("tunings in the order of the night with every retuning, and what to have tuned for it", () => {
  const { board, done } = gigBand();
  done("callSongs", { gig: "harbour", songs: ["kettle"] });
  expect(group(board(), "Tunings")).toEqual(["To begin with: standard, for Marzipan Diesel"]);
  done("tuneForGig", { gig: "harbour", song: "umbrella", tuning: "drop D" });
  expect(group(board(), "Tunings")).toEqual([
    "To begin with: standard, for Marzipan Diesel",
    "After Marzipan Diesel: drop D, for Umbrella Season",
    "After Umbrella Season: standard, for Old Kettle",
    "Tuned and at hand: standard, drop D",
  ]);
  done("seatForGig", { gig: "harbour", chair: "bass", member: "" });
  expect(group(board(), "Tunings")).toEqual([]);
});

test("capos where a guitar plays, changes of instrument, spares of who plays", () => {
  const { board, done } = gigBand();
  done("reviseSong", { song: "diesel", fields: { capo: 2, rig: "double bass" } });
  expect(group(board(), "Capos")).toEqual([]);
  expect(group(board(), "Changes")).toEqual(["double bass: Marzipan Diesel"]);
  expect(group(board(), "Spares")).toEqual([
    "Spare sticks",
    "Spare beater, hat clutch, a drum key",
    "Spare bass strings",
  ]);
  done("addChair", { name: "Guitar", instrument: "guitar", holder: "minjae" }, "guitar");
  expect(group(board(), "Capos")).toEqual(["Capo 2: Marzipan Diesel"]);
});

test("every line has an id of its own on every night of the demo band, and nothing stands for no gig", () => {
  const ydoc = new Y.Doc();
  seedDemo(ydoc, Date.UTC(2026, 2, 5, 12), "Europe/Lisbon");
  const board = readBoard(createBoardDocument(ydoc));
  for (const gig of board.gigs) {
    const ids = loadIn(board, gig.id)?.flatMap(({ lines }) => lines.map(({ id }) => id)) ?? [];
    expect(ids.length).toBeGreaterThan(6);
    expect(new Set(ids).size).toBe(ids.length);
  }
  expect(loadIn(board, "no such gig")).toBeNull();
});
