import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import type { Board } from "#shared/board/board.ts";
import { seedDemo } from "#shared/demo/seed-demo.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { readBoard } from "#shared/document/read/board-reader.ts";
import { endOfDay } from "#shared/lib/calendar.ts";
import type { PlanQuestion, RoomPlan } from "#shared/plan/evening-plan.ts";
import { plainRule, planRoom } from "#shared/plan/room-plan.ts";
import { laws } from "#tests/support/fuzz.ts";

const NOW = Date.UTC(2026, 2, 5, 19);

const demo = ((): Board => {
  const ydoc = new Y.Doc();
  seedDemo(ydoc, NOW, "Europe/Lisbon");
  return readBoard(createBoardDocument(ydoc));
})();
const gig = demo.gigs.find(({ date }) => date >= "2026-03-05") ?? null;
const everybody = new Set(demo.people.keys());

const ask = (more: Partial<PlanQuestion> = {}): PlanQuestion => ({
  board: demo,
  gig,
  night: endOfDay(gig?.date ?? "2026-03-14", "Europe/Lisbon"),
  now: NOW,
  phases: [{ minutes: 85, present: everybody, standIns: {} }],
  pins: new Map(),
  ...more,
});

const finish = (steps: Generator<null, RoomPlan>): RoomPlan => {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
};
const plan = (more: Partial<PlanQuestion> = {}): RoomPlan => finish(planRoom(ask(more)));

describe("a plan for the demo band's evening", () => {
  const full = plan();

  test("fills the evening without overfilling it, and its value is the sum of its lines", () => {
    expect(full.minutes).toBeLessThanOrEqual(85);
    expect(full.minutes).toBeGreaterThan(75);
    const sum = full.lines.reduce((total, { value }) => total + value, 0);
    expect(sum).toBeCloseTo(full.value, 12);
  });

  test("every line says what it raises, by how much and why", () => {
    for (const { before, after, because, block, song } of full.lines) {
      expect(after).toBeGreaterThan(before);
      expect(after).toBeLessThanOrEqual(1);
      expect(because.length).toBeGreaterThan(0);
      expect(block.song).toBe(song);
      expect(block.runs + block.cards.length).toBeGreaterThan(0);
    }
  });

  test("is worth no less than the plain rule, which is worth something", () => {
    const plain = finish(plainRule(ask()));
    expect(plain.value).toBeGreaterThan(0);
    expect(plain.minutes).toBeLessThanOrEqual(85);
    expect(full.value).toBeGreaterThanOrEqual(plain.value);
  });

  test("drills shared details only; what one player can learn alone is homework", () => {
    const cards = new Map(
      [...demo.songs.values()].flatMap((file) => file.cards.map((card) => [card.id, card])),
    );
    for (const { block } of full.lines)
      for (const id of block.cards) expect(cards.get(id)?.chairs.length).toBeGreaterThan(1);
    expect(full.homework.length).toBeGreaterThan(0);
    for (const { items } of full.homework) for (const { card } of items) expect(card.chairs).toHaveLength(1);
  });
});

const SONGS = [...demo.songs.keys()].sort();
const pins = fc
  .dictionary(fc.constantFrom(...SONGS), fc.constantFrom("must" as const, "not tonight" as const), {
    maxKeys: 3,
  })
  .map((record) => new Map(Object.entries(record)));
const people = fc.subarray([...everybody], { minLength: 1 }).map((ids) => new Set(ids));

test("pins hold, minutes hold, and who is not in the room gains nothing", { timeout: 60_000 }, () => {
  fc.assert(
    fc.property(pins, people, fc.integer({ min: 0, max: 180 }), (pinned, present, halves) => {
      const minutes = halves / 2;
      const found = plan({ pins: pinned, phases: [{ minutes, present, standIns: {} }] });
      expect(found.minutes).toBeLessThanOrEqual(minutes + 1e-9);
      const songs = found.lines.map(({ song }) => song);
      expect(new Set(songs).size).toBe(songs.length);
      for (const [song, pin] of pinned) {
        if (pin === "not tonight") expect(songs).not.toContain(song);
        else if (songs.includes(song)) expect(found.refused).not.toContain(song);
      }
      for (const { because, missing } of found.lines) {
        for (const { of, member } of because) if (of !== "band") expect(present.has(member ?? "")).toBe(true);
        for (const member of missing) expect(present.has(member)).toBe(false);
      }
    }),
    laws(12),
  );
});

test("a stretch of the evening is planned for those who are there then", { timeout: 30_000 }, () => {
  const bass = "demo-minjae";
  const without = new Set([...everybody].filter((id) => id !== bass));
  const found = plan({
    phases: [
      { minutes: 40, present: without, standIns: {} },
      { minutes: 45, present: everybody, standIns: {} },
    ],
  });
  const used = (phase: number) =>
    found.lines.filter((line) => line.phase === phase).reduce((sum, { block }) => sum + block.minutes, 0);
  expect(used(0)).toBeLessThanOrEqual(40);
  expect(used(1)).toBeLessThanOrEqual(45);
  for (const { phase, missing } of found.lines) if (phase === 1) expect(missing).toEqual([]);
  expect(
    found.lines
      .filter(({ phase }) => phase === 0)
      .every(({ because }) => because.every(({ member }) => member !== bass)),
  ).toBe(true);
});

test("nobody in the room, no minutes and no songs make an empty plan", () => {
  expect(plan({ phases: [{ minutes: 85, present: new Set(), standIns: {} }] }).lines).toEqual([]);
  expect(plan({ phases: [{ minutes: 0, present: everybody, standIns: {} }] }).lines).toEqual([]);
  expect(plan({ board: { ...demo, songs: new Map() } }).lines).toEqual([]);
});

test("musts that do not fit are named, and the others stand", () => {
  const asked = new Map(SONGS.slice(0, 4).map((song) => [song, "must" as const]));
  const found = plan({ pins: asked, phases: [{ minutes: 12, present: everybody, standIns: {} }] });
  expect(found.refused.length).toBeGreaterThan(0);
  for (const song of asked.keys())
    expect(found.refused.includes(song) || found.lines.some((line) => line.song === song)).toBe(true);
});

test("with a song played well tonight less is to be gained by playing it again", () => {
  const [first] = plan().lines;
  if (first === undefined) throw new Error("no plan");
  const file = demo.songs.get(first.song);
  if (file === undefined) throw new Error("no song");
  const seats = demo.chairs.flatMap(({ id, holder }) =>
    holder === null ? [] : [{ chair: id, member: holder }],
  );
  const run = {
    id: "r:2026-03-05/x/1", song: first.song, occasion: "r:2026-03-05", no: 1, kind: "run", at: NOW - 60_000, seats,
    scope: { of: "whole" }, feel: "clean", tempoStart: null, tempoEnd: null, key: null, slips: [], writers: ["w"],
  } as const; // biome-ignore format: one take
  const songs = new Map(demo.songs).set(first.song, { ...file, takes: [...file.takes, run] });
  const again = plan({ board: { ...demo, songs }, pins: new Map([[first.song, "must"]]) });
  const line = again.lines.find(({ song }) => song === first.song);
  expect((line?.after ?? 0) - (line?.before ?? 0)).toBeLessThan(first.after - first.before);
});
