/**
 * A document that uses every root map and every field of the current schema, with the demo band and a small seeded
 * band beside it, written by several devices. The same code gives the same bytes. What it holds may change until the
 * schema is released; a fixture that is written stays as it is.
 */
import * as Y from "yjs";
import { adjustSettings } from "#shared/commands/adjust-settings.ts";
import { idsFrom } from "#shared/commands/command.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { seedDemo } from "#shared/demo/seed-demo.ts";
import { createBoardDocument, type Json, type SetKey } from "#shared/document/board-document.ts";
import { migrate } from "#shared/document/migrations/migrate.ts";
import type { RootMap } from "#shared/document/root-maps.ts";
import { seedFull } from "./seed-full.ts";

const NOW = Date.UTC(2026, 10, 27, 18);
const DAY = 86_400_000;

type Fields = { readonly [field: string]: Json };

const put = (set: SetKey, map: RootMap, entity: string, fields: Fields): void => {
  for (const [field, value] of Object.entries(fields))
    set(map, entity === "" ? field : `${entity}/${field}`, value);
};

const band = (set: SetKey): void => {
  put(set, "band", "", { name: "Gasket & Sons", timeZone: "Europe/Lisbon", demo: false, tuning: "drop D" });
  put(set, "chairs", "tuba", {
    name: "Tuba", short: "Tb", instrument: "brass", holder: "odile", order: "z1", deleted: false,
  });
  put(set, "chairs", "sold", { name: "Sold organ", instrument: "keys", order: "z2", deleted: true });
  put(set, "people", "odile", { name: "Odile Varrenko", dep: false, order: "z1", deleted: false });
  put(set, "people", "odile", { voice: { lowest: 48, comfortLow: 52, comfortHigh: 67, highest: 71 } });
  put(set, "people", "left", { name: "Bram Quillfeather", dep: true, order: "z2", deleted: true });
}; // biome-ignore format: one record a line

const song = (set: SetKey): void => {
  put(set, "songs", "every", {
    title: "Gravel Compass", stage: "learning", style: "slow", version: "as at the harbour", recordKey: "Eb",
    key: "D", liftKey: "E", tempo: 93.5, metre: "6/8", length: 251, countIn: "two bars", firstChord: { chord: "D5", key: "D" }, ending: "ring out",
    tuning: "drop D", capo: 2, shapeMatters: "essential", openLow: true, tolerance: 3, energy: 4, floor: "fills", strong: "both", hardToSing: true, rig: "acoustic",
    melody: { key: "Eb", histogram: [[57, 12.5], [62, 40], [67, 3]] }, notes: "Bring the shaker.\nZwölf Töne, 音楽.", playedBefore: true, order: "z1",
    addedAt: NOW - 200 * DAY, keySince: NOW - 90 * DAY, tempoSince: NOW - 80 * DAY, formSince: NOW - 70 * DAY,
    endingSince: NOW - 60 * DAY, deleted: false, laterField: { kept: [1, null, "as it is"] },
  });
  put(set, "songs", "dropped", { title: "Thimble Weather", order: "z2", deleted: true });
  put(set, "songs", "broken", { title: "Saddle Static", tempo: "fast", order: "z3", deleted: false });
  put(set, "sections", "every/v1", { name: "V1", bars: 12, repeats: 2, metre: "6/8", tempo: 96, key: "E", order: "a1", since: NOW - 50 * DAY, deleted: false });
  put(set, "sections", "every/gone", { name: "Bridge", bars: 4, order: "a2", since: 0, deleted: true });
  put(set, "castings", "every/tuba", {
    plays: true, needed: false, holder: "odile", share: 1.5, nothingSpecial: "odile",
  });
  set("textures", "every/v1/tuba/ours", {
    changes: [{ bar: 1, pass: null, presence: "light" }, { bar: 9, pass: 2, presence: "full" }],
  });
  set("textures", "every/v1/tuba/recorded", { changes: [] });
  set("hints", "every/narrow", true);
  set("hints", "every/all-in", false);
}; // biome-ignore format: one record a line

const cards = (set: SetKey): void => {
  const at = NOW - 40 * DAY;
  set("cards", "low/body", {
    song: "every", chairs: ["tuba", "sold"], weight: "must", kind: "general", order: "a1", without: "tuba",
    where: { from: { section: "v1", bar: 3, beat: 2.5 }, to: { section: "v1", bar: 4 }, pass: 2, clock: 61 },
    source: "ours", createdBy: "odile", createdAt: at,
  });
  put(set, "cards", "low", { since: at + DAY, deleted: false });
  put(set, "cards", "low", {
    grid: { steps: 12, perBeat: 3, rows: [{ chair: "tuba", hits: "X..o.xX....." }, { chair: "sold", hits: "x.....x....." }] },
    shape: { frets: [0, null, 2, 2], fingers: [null, null, 1, 2], capo: 2 },
  });
  set("texts", "low/text/phone", { text: "Low and long", base: {}, was: "", by: "odile", at });
  set("texts", "low/text/tablet", { text: "Low, long, soft", base: { phone: at }, was: "Low and long", by: "", at: at + 9 });
  set("texts", "low/text/laptop", { text: "Low but short", base: { phone: at }, was: "Low and long", by: "left", at: at + 7 });
  set("texts", "low/right/phone", { text: "The floor hums", base: {}, at });
  set("statuses", "low/odile/phone", { level: 2, from: 1, anchor: at + 5, fromAnchor: at, at: at + 5 });
  set("statuses", "low/odile/tablet", { level: 3, from: 2, anchor: at + 8, fromAnchor: at + 5, at: at + 8 });
  set("statuses", "part:every:tuba/odile/phone", { level: 1, from: 0, anchor: at, at });
  set("rulings", "r1", {
    song: "every", card: "low", about: "ending", source: "ours", text: "Ring out", before: "Choke", why: "It breathes",
    by: "odile", at, withdrawn: false,
  });
  set("rulings", "r2", {
    song: "every", card: null, about: "key", source: "ours", text: "E", before: "D", by: "left", at, withdrawn: true,
  });
  set("questions", "q1", {
    song: "every", card: "low", chair: "tuba", gig: "quay", text: "How low?", by: "left", at, withdrawn: false,
  });
  set("questions", "q2", { song: "every", card: null, chair: null, gig: null, text: "Why?", by: "", at, withdrawn: true });
  set("answers", "q1/phone", { text: "To the floor", by: "odile", at: at + 10, withdrawn: false });
  set("answers", "q1/tablet", { text: "Never mind", by: "odile", at: at + 11, withdrawn: true });
}; // biome-ignore format: one record a line

const log = (set: SetKey): void => {
  const at = NOW - 20 * DAY;
  const slot = "r:2026-11-07/every/1";
  const take = {
    kind: "run", at, seats: [{ chair: "tuba", member: "odile" }], scope: { of: "whole" }, feel: "wobble",
    tempoStart: 93, tempoEnd: 95.5, key: "D", by: "odile", withdrawn: false,
  };
  set("takes", `${slot}/phone`, take);
  set("takes", `${slot}/tablet`, { ...take, at: at + 30_000, feel: "clean", tempoEnd: null, by: "" });
  set("takes", "r:2026-11-07/every/2/phone", { ...take, kind: "drill", scope: { of: "sections", sections: ["v1"] } });
  set("takes", "r:2026-11-07/every/3/phone", { ...take, kind: "solo", scope: { of: "cards", cards: ["low"] } });
  set("takes", "r:2026-11-07/every/4/phone", { ...take, withdrawn: true });
  set("slips", `${slot}/tuba/low/phone`, { severity: 1, at });
  set("slips", `${slot}/-/-/tablet`, { severity: 0.5, at: at + 1 });
  set("slips", `${slot}/tuba/-/phone`, { severity: 0, at });
}; // biome-ignore format: one record a line

const questions = (set: SetKey): void => {
  const asked = { song: "every", chair: "tuba", gig: null, by: "odile", at: NOW - 3 * DAY };
  set("questions", "q1", {
    ...asked,
    card: "low",
    text: "As low as the bass, or an octave up?",
    withdrawn: false,
  });
  set("questions", "q2", { ...asked, card: null, gig: "quay", text: "Asked by mistake", withdrawn: true });
  set("answers", "q1/phone", { text: "An octave up", by: "left", at: NOW - 2 * DAY, withdrawn: false });
  set("answers", "q1/tablet", { text: "As low as it goes", by: "odile", at: NOW - DAY, withdrawn: true });
};

const gigs = (set: SetKey): void => {
  put(set, "gigs", "quay", { name: "Quay fair", place: "North quay", date: "2026-12-12", minutes: 75, blocks: [40, 35], arc: [0.5, 1], talk: 3, call: "17:00", start: "20:00", dress: "black", contact: "Odile", note: "Bring the lamp.", deleted: false });
  put(set, "gigs", "off", { name: "Called off", date: "2026-12-19", deleted: true });
  put(set, "setSongs", "quay/every", { order: "a1", called: true, key: "E", tempo: 96, tuning: "half step down", block: 1, pin: "here", askedBy: "the host", keyAsked: { key: "D", by: "vera" }, leftOut: true, floorDid: "filled" });
  put(set, "setSongs", "quay/dropped", { order: "a2", called: false, key: null, tempo: null });
  set("lineUps", "quay/tuba", "");
  set("lineUps", "quay/sold", null);
  set("waivers", "quay/every/settled", { by: "odile", at: NOW, note: "We know it cold", withdrawn: false });
  set("waivers", "quay/every/covered", { by: "odile", at: NOW, note: "Taken back", withdrawn: true });
}; // biome-ignore format: one record a line

const evenings = (set: SetKey): void => {
  put(set, "rehearsals", "2026-12-02", {
    place: "Cellar", start: "19:30", booked: 120, setUp: 15, pause: 10, packDown: 10, gig: "quay",
    startedAt: NOW - 2 * DAY, endedAt: NOW - 2 * DAY + 5_400_000, deleted: false,
    plan: [{ song: "every", runs: 2, cards: ["low"], section: "v1", minutes: 25 }],
  });
  put(set, "rehearsals", "2026-12-09", { place: "Called off", deleted: true });
  set("attendance", "2026-12-02/odile", { here: true, from: NOW, to: null, at: NOW });
  set("standIns", "2026-12-02/tuba", "odile");
  set("pins", "2026-12-02/every", "must");
  set("pins", "2026-12-02/dropped", "");
  set("aways", "a1", { person: "odile", from: "2026-12-05", to: "2026-12-08", by: "odile", at: NOW, withdrawn: false });
}; // biome-ignore format: one record a line

/** The band's own constants by key, and a late record as a client of the first schema still writes it. */
const settings = (ydoc: Y.Doc): void => {
  const document = createBoardDocument(ydoc);
  const runner = createRunner(document);
  const author = { member: null, writer: "phone", role: "leader" } as const;
  const context = { id: "own", now: NOW, author, newId: idsFrom("own") };
  const changes = { gapSeconds: 45, "claim.3": 0.7, "kindWeight.solo": 0.5, "kindWeight.gig": 1.5 };
  const done = runner.run(adjustSettings, { changes }, context);
  if (!done.ok) throw new Error(done.error.sentence);
  document.transact("fixture", (set) => {
    set("settings", "b", null);
    set("band", "settings", { gapSeconds: 60, b: 0.7, soloCap: 2 });
  });
  runner.close();
};

const deviceDoc = (clientID: number): Y.Doc => {
  const ydoc = new Y.Doc();
  ydoc.clientID = clientID;
  return ydoc;
};

/** The document, merged from what four devices wrote apart. */
export const fixtureDocument = (): Y.Doc => {
  const [demo, seeded, own, merged] = [101, 102, 103, 104].map(deviceDoc) as [Y.Doc, Y.Doc, Y.Doc, Y.Doc];
  seedDemo(demo, NOW, "Europe/Lisbon");
  seedFull(seeded, NOW, { songs: 20, chairs: 2, cards: 40, takes: 1 });
  createBoardDocument(own).transact("fixture", (set) => {
    for (const write of [band, song, cards, log, questions, gigs, evenings]) write(set);
  });
  for (const one of [demo, seeded, own]) Y.applyUpdate(merged, Y.encodeStateAsUpdate(one));
  migrate(createBoardDocument(merged));
  settings(merged);
  return merged;
};
