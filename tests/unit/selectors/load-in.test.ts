import { expect, test } from "vitest";
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

test("every line has an id of its own that outlasts a change elsewhere, and nothing stands for no gig", () => {
  const { board, done } = gigBand();
  const ids = (): readonly string[] =>
    loadIn(board(), "harbour")?.flatMap(({ lines }) => lines.map(({ id }) => id)) ?? [];
  const before = ids();
  expect(before.length).toBeGreaterThan(6);
  expect(new Set(before).size).toBe(before.length);
  done("reviseSong", { song: "umbrella", fields: { rig: "double bass" } });
  expect(ids()).toEqual(expect.arrayContaining([...before]));
  expect(loadIn(board(), "no such gig")).toBeNull();
});
