import { describe, expect, test } from "vitest";
import type { Json } from "#shared/document/board-document.ts";
import type { RootMap } from "#shared/document/root-maps.ts";
import { createValueStore, type StoredValues } from "#shared/document/stored-values.ts";
import { restoreWrites } from "#shared/history/restore-writes.ts";

type Entries = { readonly [map: string]: { readonly [key: string]: Json } };

const holding = (entries: Entries): StoredValues => {
  const store = createValueStore();
  for (const [map, values] of Object.entries(entries))
    for (const [key, value] of Object.entries(values)) store.put(map as RootMap, key, value);
  return store;
};

const song = { "diesel/title": "Marzipan Diesel", "diesel/deleted": false };
const person = { "lucia/name": "Lucía Borrasco", "lucia/deleted": false };
const body: Json = {
  song: "diesel", chairs: [], weight: "must", kind: "general", where: {}, order: "a0", source: "ours", createdBy: "", createdAt: 1,
}; // biome-ignore format: one glance
const cards = { "choke/body": body, "choke/deleted": false };
const mark = (level: number, at: number): Json => ({ level, from: 0, anchor: at, fromAnchor: 0, at });

describe("[HIST-3] what a restore writes", () => {
  test("puts a constant back that an older document kept in its one record", () => {
    const past = holding({ band: { settings: { gapSeconds: 30 } } });
    const current = holding({
      band: { settings: { gapSeconds: 30 } },
      settings: { gapSeconds: 60, "claim.3": 0.7 },
    });
    expect(restoreWrites(current, past)).toEqual([
      { put: "value", map: "settings", key: "claim.3", value: null, seen: 0.7 },
      { put: "value", map: "settings", key: "gapSeconds", value: 30, seen: 60 },
    ]);
  });

  test("never touches what a record holds that was not there then", () => {
    const past = holding({ people: person });
    const current = holding({
      people: person,
      songs: { ...song, "diesel/tempo": 112 },
      sections: { "diesel/verse/name": "Verse", "diesel/verse/deleted": false },
      cards,
      statuses: { "choke/lucia/phone": mark(2, 5) },
      texts: { "choke/text/phone": { text: "Choke", base: {}, at: 5 } },
    });
    expect(restoreWrites(current, past)).toEqual([
      { put: "value", map: "songs", key: "diesel/deleted", value: true, seen: false },
    ]);
  });

  test("says a mark again in the place of a later one of another device, whatever that device's clock", () => {
    const FAR = 9_999_999_999_999;
    const past = holding({
      people: person,
      songs: song,
      cards,
      statuses: { "choke/lucia/phone": mark(1, 5) },
    });
    const current = holding({
      people: person,
      songs: song,
      cards,
      statuses: { "choke/lucia/phone": mark(1, 5), "choke/lucia/tablet": mark(3, FAR) },
    });
    expect(restoreWrites(current, past)).toEqual([
      {
        put: "mark",
        card: "choke",
        member: "lucia",
        level: 1,
        anchor: 5,
        from: 3,
        fromAnchor: FAR,
        seenAt: FAR,
      },
    ]);
  });

  test("covers every version of a wording, superseded ones too", () => {
    const texts = { "choke/text/phone": { text: "Choke", base: {}, at: 5 } };
    const past = holding({ songs: song, cards, texts });
    const reworded = { "choke/text/tablet": { text: "Grab it", base: { phone: 5 }, at: 6 } };
    const current = holding({ songs: song, cards, texts: { ...texts, ...reworded } });
    expect(restoreWrites(current, past)).toEqual([
      {
        put: "wording",
        card: "choke",
        field: "text",
        text: "Choke",
        was: "Grab it",
        base: { phone: 5, tablet: 6 },
      },
    ]);
  });

  test("settles a disagreement that arose since, and leaves one alone that was open then", () => {
    const one = { "choke/text/phone": { text: "Choke", base: {}, at: 5 } };
    const two = { ...one, "choke/text/tablet": { text: "Grab it", base: {}, at: 4 } };
    const [before, after] = [one, two].map((texts) => holding({ songs: song, cards, texts }));
    if (before === undefined || after === undefined) throw new Error("two boards");
    expect(restoreWrites(after, before)).toMatchObject([{ put: "wording", text: "Choke" }]);
    expect(restoreWrites(after, after)).toEqual([]);
  });

  test("leaves the marks of migrations alone", () => {
    expect(restoreWrites(holding({ migrations: { "0001-settings-by-key": true } }), holding({}))).toEqual([]);
  });
});
