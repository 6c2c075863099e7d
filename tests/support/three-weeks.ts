/** Three weeks of a busy band on top of the demo: three rehearsals, a gig, ten rulings, sixty changed details. */
import * as Y from "yjs";
import type { Board } from "#shared/board/board.ts";
import { WEIGHTS } from "#shared/board/card.ts";
import { FEELS } from "#shared/board/take.ts";
import { type CommandContext, idsFrom } from "#shared/commands/command.ts";
import { COMMANDS } from "#shared/commands/registry.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { seedDemo } from "#shared/demo/seed-demo.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { dayOf } from "#shared/lib/calendar.ts";
import { seeded } from "#tests/support/big-board.ts";

const DAY = 86_400_000;
const ZONE = "Europe/Lisbon";

export interface ThreeWeeks {
  /** Moment (ms) the member left. */
  readonly left: number;
  readonly back: number;
  readonly before: Board;
  readonly after: Board;
  readonly takes: number;
}

export const threeWeeks = (seed = 1, left = Date.UTC(2026, 2, 2, 8)): ThreeWeeks => {
  const random = seeded(seed);
  const ydoc = new Y.Doc();
  seedDemo(ydoc, left, ZONE);
  const runner = createRunner(createBoardDocument(ydoc));
  const before = runner.board();
  let n = 0;
  const run = (name: string, args: object, at: number, member = "demo-tomasz"): void => {
    n += 1;
    const id = `away-${n}`;
    const author = { member, writer: `phone of ${member}`, role: "leader" } as const;
    const context: CommandContext = { id, now: at, author, newId: idsFrom(id) };
    const command = COMMANDS.get(name);
    const done = command && runner.run(command, args, context);
    if (!done?.ok)
      throw new Error(`${name}: ${done === undefined ? "no such command" : done.error.sentence}`);
  };
  const pick = <T>(items: readonly T[]): T => {
    const item = items[Math.floor(random() * items.length)];
    if (item === undefined) throw new Error("nothing to pick from");
    return item;
  };
  const files = () => [...runner.board().songs.values()].filter(({ song }) => song.stage !== "candidate");
  const cards = () => files().flatMap((file) => file.cards.map((card) => ({ file, card })));
  const words = [
    "hold it back",
    "leave the last bar open",
    "watch for the nod",
    "half as loud",
    "off together",
  ];
  for (let i = 0; i < 10; i += 1) {
    const about = pick(["key", "ending", "tempo", "count-in", "form"]);
    run(
      "rule",
      {
        song: pick(files()).song.id,
        about,
        source: "ours",
        text: about === "key" ? pick(["Em", "G", "Bb"]) : `${pick(words)}, then ${pick(words)}`,
        why: i % 2 === 0 ? "it drags when the second voice is away" : "",
        learnAgain: i % 3 === 0,
      },
      left + (1 + 2 * i) * DAY,
    );
  }
  for (let i = 0; i < 60; i += 1) {
    const at = left + (1 + i / 3) * DAY;
    const { file, card } = pick(cards());
    if (i % 3 === 0)
      run(
        "addDetail",
        {
          song: file.song.id,
          text: `${pick(words)} ${i}`,
          right: "nobody looks up",
          chairs: card.chairs,
          weight: pick(WEIGHTS),
          kind: card.kind,
          where: card.where,
        },
        at,
      );
    else if (i % 3 === 1)
      run("rewordDetail", { card: card.id, field: "text", text: `${pick(words)}, ${pick(words)} ${i}` }, at);
    else
      run("reviseDetail", { card: card.id, fields: { weight: pick(WEIGHTS) }, learnAgain: i % 2 === 0 }, at);
  }
  let takes = 0;
  for (const [evening, count] of [
    [3, 14],
    [10, 13],
    [17, 13],
  ] as const) {
    const at = left + evening * DAY + 11 * 3_600_000;
    for (let i = 0; i < count; i += 1) {
      const file = pick(files().filter(({ cards }) => cards.length > 0));
      const seats = runner
        .board()
        .chairs.flatMap(({ id, holder }) => (holder === null ? [] : [{ chair: id, member: holder }]));
      const slips = random() < 0.5 ? [] : [{ card: pick(file.cards).id, severity: 1 }];
      run(
        "logTake",
        {
          song: file.song.id,
          occasion: `r:${dayOf(at, ZONE)}`,
          kind: i % 4 === 0 ? "drill" : "run",
          at: at + i * 12 * 60_000,
          seats,
          feel: pick(FEELS),
          slips,
        },
        at + i * 12 * 60_000,
        "demo-anneli",
      );
      takes += 1;
    }
  }
  run("planGig", { name: "Ferry landing", date: dayOf(left + 19 * DAY, ZONE), minutes: 90 }, left + 4 * DAY);
  const gig = runner.board().gigs.find(({ name }) => name === "Ferry landing");
  run(
    "callSongs",
    {
      gig: gig?.id,
      songs: files()
        .slice(0, 20)
        .map(({ song }) => song.id),
    },
    left + 5 * DAY,
  );
  const asked = pick(files());
  run(
    "askQuestion",
    { song: asked.song.id, text: "Do we still cut the second verse?" },
    left + 6 * DAY,
    "demo-priya",
  );
  const after = runner.board();
  runner.close();
  return { left, back: left + 21 * DAY, before, after, takes };
};
