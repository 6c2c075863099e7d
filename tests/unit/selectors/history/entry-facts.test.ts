import { describe, expect, test } from "vitest";
import type { RootMap } from "#shared/document/root-maps.ts";
import { createValueStore } from "#shared/document/stored-values.ts";
import {
  devicesOfWriters,
  occasionsOfEntry,
  occasionWords,
  songsOfEntry,
} from "#shared/selectors/history/entry-facts.ts";

const values = createValueStore();
values.put("cards", "choke/body", { song: "diesel" });
values.put("questions", "hand", { song: "diesel" });

describe("the songs of an entry", () => {
  test.each<[RootMap, string, string]>([
    ["songs", "diesel/tempo", "diesel"],
    ["sections", "diesel/verse/bars", "diesel"],
    ["castings", "diesel/drums/plays", "diesel"],
    ["statuses", "choke/lucia/phone", "diesel"],
    ["statuses", "part:diesel:drums/lucia/phone", "diesel"],
    ["takes", "r:2026-03-04/diesel/1/phone", "diesel"],
    ["setSongs", "harbour/diesel/called", "diesel"],
    ["questions", "hand", "diesel"],
    ["people", "lucia/name", ""],
  ])("%s %s is about: %s", (map, key, song) => {
    const entry = { changes: [{ map, key, before: undefined, after: "x" }] };
    expect([...songsOfEntry(entry, values)].join()).toBe(song);
  });

  test("a withdrawn ruling is about the song it was about", () => {
    const entry = {
      changes: [{ map: "rulings" as const, key: "why", before: { song: "diesel" }, after: undefined }],
    };
    expect([...songsOfEntry(entry, values)]).toEqual(["diesel"]);
  });
});

test("a day is what its takes were logged on", () => {
  const records = [
    { kind: "take" as const, id: "r:2026-03-04/diesel/1" },
    { kind: "take" as const, id: "g:harbour/diesel/1" },
    { kind: "take" as const, id: "r:2026-03-04/diesel/2" },
    { kind: "song" as const, id: "diesel" },
  ];
  const gigs = [{ id: "harbour", name: "Harbour night", place: "" }];
  expect(occasionWords(occasionsOfEntry({ records }), gigs)).toBe("rehearsal · gig: Harbour night");
  expect(occasionWords(["s:lucia:2026-03-04"], gigs)).toBe("");
  expect(occasionWords(["g:gone"], gigs)).toBe("gig");
});

test("a writer is the device that handed over most of what it wrote", () => {
  const by = (device: string, sentBy: string | null) => ({ author: { device, member: null, sentBy } });
  const devices = devicesOfWriters([by("w", "d1"), by("w", "d2"), by("w", "d1"), by("d3", null)]);
  expect([...devices]).toEqual([["w", "d1"]]);
});
