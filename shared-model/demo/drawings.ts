/** Bars and shapes that the demo band wrote beside its details. */
import type { Grid, GridRow, GridVoice, Shape } from "../board/grid.ts";
import { describeGrid, describeShape } from "../commands/describe-grid.ts";
import type { CardCode, ChairCode } from "./demo-data.ts";
import { cardId, chairId } from "./demo-ids.ts";
import { LEADER } from "./people.ts";
import type { Seeder } from "./seeder.ts";

/** `Dr kick` = the kick of the drums' chair. */
type RowCode = ChairCode | `Dr ${GridVoice}`;
type DemoRow = readonly [row: RowCode, hits: string];

const rowOf = ([code, hits]: DemoRow): GridRow => {
  const [chair, voice] = code.split(" ") as [ChairCode, GridVoice | undefined];
  return { chair: chairId(chair), ...(voice === undefined ? {} : { voice }), hits };
};

/** A bar of sixteenths in four, `hits` by row. */
const sixteenths = (...rows: readonly DemoRow[]): Grid => ({
  steps: 16,
  perBeat: 4,
  rows: rows.map(rowOf),
});

const GRIDS: readonly (readonly [card: CardCode, ours: Grid, recorded?: Grid])[] = [
  [
    "MD5",
    sixteenths(
      ["Dr hats", "x.x.x.x.x.x.x.x."],
      ["Dr snare", "....X.......X..."],
      ["Dr kick", "X.....x.....x..."],
      ["Bs", "......x-......x-"],
    ),
    sixteenths(
      ["Dr hats", "x.x.x.x.x.x.x.x."],
      ["Dr snare", "....X.......X..."],
      ["Dr kick", "X.....x...x....."],
      ["Bs", "......x-.....x--"],
    ),
  ],
  [
    "UT4",
    sixteenths(["Gt1", "..X...X...X...X."], ["Ky", "..xo..xo..xo..xo"]),
    sixteenths(["Gt1", "..X...X...X...X."], ["Ky", "..x...xo..x...xo"]),
  ],
  [
    "WA2",
    sixteenths(
      ["Dr hats", "..x...x...x...x."],
      ["Dr clap", "....x.......x..."],
      ["Dr kick", "X...X...X...X..."],
      ["Bs", "x..ox..ox..ox..o"],
    ),
    sixteenths(
      ["Dr hats", "..x...x...x...x."],
      ["Dr clap", "....x.......x..."],
      ["Dr kick", "X...X...X...X..."],
      ["Bs", "x..ox..ox..o...x"],
    ),
  ],
  ["WA3", sixteenths(["Gt1", "Xoxo.oXo.oxoXo.o"])],
  ["WA6", sixteenths(["Dr hats", "..X...X...X...X."], ["Dr kick", "x...x...x...x..."])],
];

const SHAPES: readonly (readonly [CardCode, Shape])[] = [
  ["LT3", { frets: [null, 3, 2, 0, 3, 0], fingers: [null, 2, 1, null, 3, null], capo: 5 }],
  ["WA3", { frets: [null, 7, 9, 7, 8, 7], fingers: [null, 1, 3, 1, 2, 1], capo: 0 }],
];

/** Drawn once everything else is there, and nothing has to be learnt again for it. */
export const seedDrawings = ({ as, calendar }: Seeder): void => {
  const then = calendar.at(-10, 21);
  const write = (card: CardCode, { steps, perBeat, rows }: Grid, of: "ours" | "recorded") =>
    as(LEADER, then, describeGrid, { card: cardId(card), grid: { steps, perBeat, rows: [...rows] }, of });
  for (const [card, ours, recorded] of GRIDS) {
    write(card, ours, "ours");
    if (recorded !== undefined) write(card, recorded, "recorded");
  }
  for (const [card, { frets, fingers, capo }] of SHAPES)
    as(LEADER, then, describeShape, {
      card: cardId(card),
      shape: { frets: [...frets], fingers: [...fingers], capo },
    });
};
