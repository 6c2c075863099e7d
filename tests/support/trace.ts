/** Runs one trace of a band with bad reception, and what must hold at its end. */
import fc from "fast-check";
import * as Y from "yjs";
import { COMMANDS } from "#shared/commands/registry.ts";
import { type BoardDocument, createBoardDocument } from "#shared/document/board-document.ts";
import { readBoard } from "#shared/document/read/board-reader.ts";
import { seeded } from "./big-board.ts";
import { createFakeNetwork, type FakeNetwork } from "./fake-network.ts";
import { BOARD, openPhone, type Phone } from "./phone.ts";
import { ROLLED, roll } from "./random-commands.ts";

/** What may be lost on the way; `none` = phones keep all they stored. */
export type Losses = "none" | "documents";

export interface Step {
  readonly phone: number;
  readonly act:
    | "command"
    | "undo"
    | "deliver"
    | "drain"
    | "cut"
    | "hold"
    | "heal"
    | "wait"
    | "restart"
    | "lose document"
    | "lose last write"
    | "restart server"
    | "kill server";
  readonly command: string;
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

export interface Trace {
  readonly phones: number;
  readonly seed: number;
  readonly steps: readonly Step[];
}

const BASE_ACTS: readonly { readonly act: Step["act"]; readonly weight: number }[] = [
  { act: "command", weight: 24 },
  { act: "undo", weight: 2 },
  { act: "deliver", weight: 8 },
  { act: "drain", weight: 3 },
  { act: "cut", weight: 3 },
  { act: "hold", weight: 2 },
  { act: "heal", weight: 3 },
  { act: "wait", weight: 2 },
  { act: "restart", weight: 2 },
  { act: "restart server", weight: 1 },
  { act: "kill server", weight: 1 },
];
const LOSING_ACTS: typeof BASE_ACTS = [
  { act: "lose document", weight: 2 },
  { act: "lose last write", weight: 2 },
];

/** Traces of 2 to 4 phones. */
export const traces = (losses: Losses): fc.Arbitrary<Trace> => {
  const acts = losses === "none" ? BASE_ACTS : [...BASE_ACTS, ...LOSING_ACTS];
  const act = fc.oneof(...acts.map(({ act, weight }) => ({ arbitrary: fc.constant(act), weight })));
  const step = fc.record({
    phone: fc.nat(3),
    act,
    command: fc.constantFrom(...ROLLED),
    a: fc.nat(11),
    b: fc.nat(11),
    c: fc.nat(11),
  });
  return fc.record({
    phones: fc.integer({ min: 2, max: 4 }),
    seed: fc.nat(),
    steps: fc.array(step, { minLength: 10, maxLength: 60, size: "max" }),
  });
};

/** One value that a command of one phone wrote, in the order in which that phone wrote. */
export interface Intent {
  readonly phone: string;
  readonly run: string;
  readonly map: string;
  readonly key: string;
  readonly value: unknown;
}

export interface Outcome {
  readonly network: FakeNetwork;
  readonly phones: readonly Phone[];
  readonly intents: readonly Intent[];
  /** Commands that were acknowledged to a phone and were not on the disk when the server was killed. */
  readonly lost: readonly string[];
  /** What the server holds when it is started anew from its storage. */
  readonly server: { readonly ydoc: Y.Doc; readonly document: BoardDocument };
}

const SEED_COMMANDS: readonly (readonly [name: string, args: unknown])[] = [
  ["startBand", { name: "Six Spare Fuses", timeZone: "Europe/Lisbon" }],
  ["addChair", { name: "Drums", instrument: "drums" }],
  ["addChair", { name: "Bass", instrument: "bass" }],
  ["addPerson", { name: "Lucía Borrasco" }],
  ["addPerson", { name: "Tomasz Wrzosnowicz" }],
  ["addSong", { title: "Marzipan Diesel", tempo: 112 }],
  ["addSong", { title: "Umbrella Season" }],
  ["planGig", { name: "Harbour night", date: "2026-04-18", minutes: 90 }],
];

/** Runs one command by name on a phone and notes what it wrote. */
export const act = (phone: Phone, name: string, args: unknown, intents: Intent[]): boolean => {
  const command = COMMANDS.get(name);
  if (command === undefined) throw new Error(`No command ${name}`);
  const result = phone.store().run(command, args, name);
  if (!result.ok) return false;
  note(phone, result.value, intents);
  phone.changes.push(result.value);
  return true;
};

const note = (
  phone: Phone,
  { id, written }: Pick<Phone["changes"][number], "id" | "written">,
  intents: Intent[],
): void => {
  for (const { map, key, after } of written)
    intents.push({ phone: phone.name, run: id, map, key, value: after });
};

/** Plays a trace under virtual time, heals everything, and hands over what is left to compare. */
export const play = async ({ phones: count, seed, steps }: Trace): Promise<Outcome> => {
  const network = createFakeNetwork({ random: seeded(seed), duplicates: 0.15 });
  const phones: Phone[] = [];
  for (let i = 0; i < count; i++) phones.push(await openPhone({ network, name: `phone${i}` }));
  const intents: Intent[] = [];
  await network.drain();
  const [first] = phones;
  for (const [name, args] of SEED_COMMANDS) if (first) act(first, name, args, intents);
  await network.drain();
  const lost: string[] = [];
  const inspectDisk = async (): Promise<Y.Doc> => {
    const ydoc = await storedBoard(network);
    for (const { disk } of phones)
      for (const { id, client, clock } of disk.acknowledged)
        if (Y.getState(ydoc.store, client) < clock) lost.push(id);
    return ydoc;
  };
  for (const step of steps) {
    const phone = phones[step.phone % phones.length];
    if (step.act === "kill server") {
      network.killServer();
      await inspectDisk();
    } else if (phone !== undefined) await take(step, phone, network, intents);
  }
  await network.settle();
  network.storage.crash();
  const ydoc = await inspectDisk();
  return { network, phones, intents, lost, server: { ydoc, document: createBoardDocument(ydoc) } };
};

const storedBoard = async ({ storage }: FakeNetwork): Promise<Y.Doc> => {
  const ydoc = new Y.Doc();
  for (const { bytes } of await storage.load(BOARD)) Y.applyUpdate(ydoc, bytes);
  return ydoc;
};

const HOUR = 3_600_000;

const take = async (step: Step, phone: Phone, network: FakeNetwork, intents: Intent[]): Promise<void> => {
  switch (step.act) {
    case "command": {
      const rolled = roll(phone.store().board(), step.command, step);
      if (rolled !== null) act(phone, rolled.name, rolled.args, intents);
      return;
    }
    case "undo":
      return undo(phone, step, intents);
    case "deliver":
      for (let i = 0; i <= step.a; i++) await network.deliverOne();
      return;
    case "drain":
      return network.drain();
    case "cut":
      return network.cut(phone.name);
    case "hold":
      return network.hold(phone.name);
    case "heal":
      return network.heal(phone.name);
    case "wait":
      return network.elapse(step.a < 9 ? 100 * (1 + step.b) ** 2 : (1 + (step.b % 3)) * HOUR);
    case "restart":
      return phone.restart();
    case "lose document":
      phone.disk.updates = [];
      return phone.restart();
    case "lose last write":
      phone.disk.updates.pop();
      return phone.restart();
    case "restart server":
      return network.restartServer();
  }
};

const undo = (phone: Phone, { a }: Step, intents: Intent[]): void => {
  const change = phone.changes[phone.changes.length - 1 - (a % Math.max(1, phone.changes.length))];
  if (change === undefined) return;
  const result = phone.store().undo(change);
  if (!result.ok) return;
  note(phone, result.value, intents);
  phone.changes.push(result.value);
};

/** A document's content, keys in order, for comparing two of them. */
export const contentOf = (ydoc: Y.Doc): unknown =>
  Object.fromEntries(
    [...ydoc.share.keys()]
      .sort()
      .map((name) => [name, Object.fromEntries([...ydoc.getMap(name)].sort(([x], [y]) => (x < y ? -1 : 1)))]),
  );

/** What a board read from scratch says, in a form that can be compared. */
export const boardOf = (ydoc: Y.Doc): unknown => readBoard(createBoardDocument(ydoc));
