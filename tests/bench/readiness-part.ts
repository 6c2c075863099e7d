import { atMost, figureTable, type Line, ms, type Part, table } from "./part.ts";

interface Times {
  readonly p50: number;
  readonly p95: number;
}

interface ReadinessLine {
  readonly songs: number;
  readonly takes: number;
  readonly fromScratch: Times;
  readonly oneTick: Times;
}

/** How long the formulas take, at full size and beyond. */
export const readinessPart: Part = {
  name: "readiness",
  title: "Readiness",
  program: "readiness.ts",
  always: true,
  show: (lines: readonly Line[]) => {
    const sizes = lines as unknown as readonly ReadinessLine[];
    const [full] = sizes;
    if (full === undefined) throw new Error("Readiness was not measured.");
    const figures = [
      atMost(
        "readiness of 60 songs × 8 chairs × 10 details × 10,000 takes, from scratch, p50",
        full.fromScratch.p50,
        50,
        ms,
      ),
      atMost("the same after one tick, p95", full.oneTick.p95, 1, ms),
    ];
    const growth = table(
      ["size", "from scratch, p50 / p95", "one tick, p95"],
      sizes.map(({ songs, takes, fromScratch, oneTick }) => [
        `${songs} songs, ${takes.toLocaleString("en-GB")} takes`,
        `${ms(fromScratch.p50)} / ${ms(fromScratch.p95)}`,
        ms(oneTick.p95),
      ]),
    );
    const markdown = `${figureTable(figures)}\n\nAt other sizes (8 chairs, 10 details a part):\n\n${growth}`;
    return { figures, markdown };
  },
};
