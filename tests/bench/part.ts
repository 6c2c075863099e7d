/** One benchmark as `npm run bench` knows it: how its lines are measured, and how they are shown. */

/** A line of JSON that a measuring program printed. */
export type Line = Readonly<Record<string, unknown>>;

/** A figure beside its budget, both as text. */
export interface Figure {
  readonly what: string;
  readonly now: string;
  readonly budget: string;
  readonly reached: boolean;
}

/** What RESULTS.md says of a part, below its heading; `figures` are those that have a budget. */
export interface Shown {
  readonly figures: readonly Figure[];
  readonly markdown: string;
}

export interface Part {
  readonly name: string;
  readonly title: string;
  /** The measuring program, below tests/bench. */
  readonly program: string;
  /** False = only when it is asked for by name. */
  readonly always: boolean;
  /** True when a run with these arguments measures some of it only, and so must not replace what is kept. */
  readonly partial?: (args: readonly string[]) => boolean;
  readonly show: (lines: readonly Line[]) => Shown;
}

/** A figure that must stay at or below its budget. */
export const atMost = (
  what: string,
  value: number,
  budget: number,
  write: (value: number) => string = String,
): Figure => ({ what, now: write(value), budget: `≤ ${write(budget)}`, reached: value <= budget });

export const ms = (value: number): string => `${Number(value.toPrecision(3))} ms`;

export const figureTable = (figures: readonly Figure[]): string =>
  table(
    ["figure", "now", "budget", "reached"],
    figures.map(({ what, now, budget, reached }) => [what, now, budget, reachedWord(reached)]),
  );

export const reachedWord = (reached: boolean): string => (reached ? "yes" : "**no**");

export const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  [head, head.map(() => "---"), ...rows].map((cells) => `| ${cells.join(" | ")} |`).join("\n");
