/** Bars and shapes that the demo band wrote beside its details. */
import type { Grid, GridRow, Shape } from "../board/grid.ts";
import { describeGrid, describeShape } from "../commands/describe-grid.ts";
import type { CardCode, ChairCode } from "./demo-data.ts";
import { cardId, chairId } from "./demo-ids.ts";
import { LEADER } from "./people.ts";
import type { Seeder } from "./seeder.ts";

/** A bar of sixteenths in four, `hits` by chair. */
const sixteenths = (...rows: readonly (readonly [ChairCode, string])[]): Grid => ({
  steps: 16,
  perBeat: 4,
  rows: rows.map(([chair, hits]): GridRow => ({ chair: chairId(chair), hits })),
});

const GRIDS: readonly (readonly [CardCode, Grid])[] = [
  ["MD5", sixteenths(["Dr", "X.....x.....x..."], ["Bs", "......x.......x."])],
  ["UT4", sixteenths(["Gt1", "..X...X...X...X."], ["Ky", "..xo..xo..xo..xo"])],
  ["WA2", sixteenths(["Dr", "X...X...X...X..."], ["Bs", "x..ox..ox..ox..o"])],
  ["WA3", sixteenths(["Gt1", "Xoxo.oXo.oxoXo.o"])],
  ["WA6", sixteenths(["Dr", "..X...X...X...X."])],
];

const SHAPES: readonly (readonly [CardCode, Shape])[] = [
  ["LT3", { frets: [null, 3, 2, 0, 3, 0], fingers: [null, 2, 1, null, 3, null], capo: 5 }],
  ["WA3", { frets: [null, 7, 9, 7, 8, 7], fingers: [null, 1, 3, 1, 2, 1], capo: 0 }],
];

/** Drawn once everything else is there, and nothing has to be learnt again for it. */
export const seedDrawings = ({ as, calendar }: Seeder): void => {
  const then = calendar.at(-10, 21);
  for (const [card, { steps, perBeat, rows }] of GRIDS)
    as(LEADER, then, describeGrid, { card: cardId(card), grid: { steps, perBeat, rows: [...rows] } });
  for (const [card, { frets, fingers, capo }] of SHAPES)
    as(LEADER, then, describeShape, {
      card: cardId(card),
      shape: { frets: [...frets], fingers: [...fingers], capo },
    });
};
