/** Random lives of a document: commands that fit the board, and writes past all commands. */
import fc from "fast-check";
import type { Board } from "#shared/board/board.ts";
import { type CommandContext, idsFrom } from "#shared/commands/command.ts";
import { COMMANDS } from "#shared/commands/registry.ts";
import { createRunner } from "#shared/commands/runner.ts";
import type { BoardDocument, Json } from "#shared/document/board-document.ts";
import { ROOT_MAP_NAMES, ROOT_MAPS, type RootMap } from "#shared/document/root-maps.ts";
import { ROLLED, roll } from "./random-commands.ts";

/** When the first step happens; each step is a minute later. */
export const STEPS_START = Date.UTC(2026, 2, 4, 19);
const START = STEPS_START;

export interface Roll {
  readonly command: string;
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

/** One write past all commands: a key that may have the right form, or the nth there is, and any value. */
export interface Litter {
  readonly map: RootMap;
  readonly key: string | number;
  readonly value: Json;
}

export const rolls: fc.Arbitrary<Roll> = fc.record({
  command: fc.constantFrom(...ROLLED),
  a: fc.nat(5),
  b: fc.nat(5),
  c: fc.nat(5),
});

/** Segments that meet records the commands make, field names of every map, and plain rubbish. */
const segment = fc.oneof(
  fc.constantFrom(
    "run-0", "run-1", "run-2", "run-3", "run-4", "run-5", "run-6", "body", "deleted", "since", "text", "right", "title", "name", "order",
    "length", "holder", "settings", "timeZone", "date", "called", "part:run-2:run-0", "-", "debut", "1", "__proto__",
    "r:2026-03-04", "phone", "gapSeconds", "kindWeight.solo", "k",
  ),
  fc.string({ maxLength: 5 }),
); // biome-ignore format: by map

const fitting = (map: RootMap): fc.Arbitrary<string> =>
  fc
    .array(segment, { minLength: ROOT_MAPS[map].length, maxLength: ROOT_MAPS[map].length })
    .map((s) => s.join("/"));

const json = fc.jsonValue({ maxDepth: 2 }) as fc.Arbitrary<Json>;
/** What JSON makes of it: Yjs takes no objects without a prototype. */
export const plainJson = (made: unknown): Json => JSON.parse(JSON.stringify(made));

/** Values that are nearly right are likelier to slip through than rubbish. */
const value: fc.Arbitrary<Json> = fc
  .oneof<fc.Arbitrary<unknown>[]>(
    json,
    fc.constantFrom<Json>(true, false, "", "run-0", "4/4", 0, -1, 1e300, null, "2026-02-30", "Nowhere/City"),
    fc.record({
      song: fc.constantFrom("run-2", "run-3", "gone", ""),
      chairs: fc.array(fc.constantFrom("run-0", "gone"), { maxLength: 3 }),
      weight: fc.constantFrom("must", "heavy"),
      kind: fc.constant("general"),
      where: fc.constantFrom<Json>({}, { from: { section: "gone", bar: 0 } }, { from: { section: "run-4" } }),
      order: fc.constantFrom("a0", "", "zz", "a"),
      source: fc.constant("ours"),
      createdBy: fc.constant(""),
      createdAt: fc.constantFrom(0, START),
    }),
    fc.record({
      level: fc.constantFrom(0, 3, 4),
      from: fc.constant(0),
      anchor: fc.constant(START),
      at: fc.constantFrom(0, START, 2 * START),
    }),
    fc.record({
      text: fc.string({ maxLength: 8 }),
      base: fc.constantFrom<Json>({}, { phone: 2 * START }, { __proto__: 1 }),
      at: fc.constantFrom(0, START),
    }),
    fc.record({
      kind: fc.constantFrom("run", "solo"),
      at: fc.constantFrom(START, START + 60_000, START + 3_600_000),
      seats: fc.constant([]),
      scope: fc.constantFrom<Json>({ of: "whole" }, { of: "sections", sections: ["x"] }),
      feel: fc.constantFrom("clean", "stopped"),
      tempoStart: fc.constant(null),
      tempoEnd: fc.constantFrom(null, 120),
      key: fc.constant(null),
      withdrawn: fc.boolean(),
    }),
    fc.record({
      gapSeconds: fc.constantFrom<Json>(45, -1, "soon"),
      k: fc.constantFrom(0, 2),
      kindWeight: fc.constantFrom<Json>({ solo: 0.5 }, { solo: 0.5, later: 1 }, [1], 3),
    }),
    fc.record({
      song: fc.constantFrom("run-2", "run-3", "gone"),
      card: fc.constantFrom(null, "run-4", ""),
      chair: fc.constant(null),
      gig: fc.constant(null),
      text: fc.string({ maxLength: 8 }),
      by: fc.constantFrom("run-1", ""),
      at: fc.constantFrom(0, START),
      withdrawn: fc.boolean(),
    }),
    fc.record({ text: fc.string({ maxLength: 8 }), by: fc.constant(""), at: fc.constantFrom(0, START) }),
    fc.record({ severity: fc.constantFrom(0, 0.5, 2, 3), at: fc.constant(START) }),
  )
  .map(plainJson);

export const litter: fc.Arbitrary<Litter> = fc.constantFrom(...ROOT_MAP_NAMES).chain((map) =>
  fc.record({
    map: fc.constant(map),
    key: fc.oneof(fitting(map), fc.nat(30), fc.nat(30), fc.string()),
    value,
  }),
);

const isRoll = (step: Roll | Litter): step is Roll => "command" in step;

/** Plays the steps on one document, one transaction each, and looks at the board after every step. */
export const playOn = (
  document: BoardDocument,
  steps: readonly (Roll | Litter)[],
  look: (board: Board) => void,
) => {
  const runner = createRunner(document);
  steps.forEach((step, i) => {
    if (isRoll(step)) {
      const rolled = roll(runner.board(), step.command, step);
      const command = COMMANDS.get(rolled?.name ?? "");
      const id = `run-${i}`;
      const author = { member: null, writer: "phone", role: "leader" } as const;
      const context: CommandContext = { id, now: START + i * 60_000, author, newId: idsFrom(id) };
      if (command !== undefined) runner.run(command, rolled?.args, context);
    } else {
      const { map, key, value } = step;
      const keys = typeof key === "number" ? [...document.entries(map)].map(([there]) => there) : [key];
      const chosen = keys[typeof key === "number" ? key % keys.length : 0];
      if (chosen !== undefined) document.transact("test", (set) => set(map, chosen, value));
    }
    look(runner.board());
  });
};

/** Enough of a band that later steps have something to be about. */
export const FOUNDATION: readonly Roll[] = [
  "addChair", "addPerson", "addSong", "addSong", "addSection", "addDetail", "planGig", "callSongs", "markDetail", "logTake",
].map((command, i) => ({ command, a: 0, b: 1, c: i % 2 })); // biome-ignore format: in order
