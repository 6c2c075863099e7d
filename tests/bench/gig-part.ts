import { atMost, type Figure, figureTable, type Line, ms, type Part, table } from "./part.ts";

const ABOUT = `- The same board: 60 songs × 8 chairs × 5,000 details, 1,200 takes. One night calls all 60 in three blocks of 85 minutes, one
  50 in three of 40; no song is ready, so every song's gates find something to say
- From the event (a choice, a click, a key, a move of the pointer) to the paint of all that comes of it, with a processor
  made four times slower and beside it at full speed; p50 / p95 of 12 choices, 20 steps, 36 moves and 12 drops, and the
  first choice after the page was opened apart; with so few, p95 is about the slowest. Proposals: the median of three,
  each on a page just opened
- "Formula alone" is what the page computes for it, in an empty page of the same browser, without React and layout`;

interface Row {
  readonly what: string;
  readonly figure: string;
  readonly values: readonly string[];
  /** Its own line of the formula alone, with the same values. */
  readonly formula?: string;
  /** What each value is called there, where it is called otherwise. */
  readonly formulaValues?: readonly string[];
}

const SPREAD = ["p50", "p95"] as const;
const every = "60 called, in blocks of 85";
const spare = "50 called, in blocks of 40";

const proposal = (night: string, called: number): readonly Row[] => [
  {
    what: `order for ${night}: first answer`,
    figure: `proposal for ${night}`,
    values: ["first"],
    formula: `formula of a proposal for ${called} called`,
    formulaValues: ["quick"],
  },
  {
    what: `order for ${night}: searched answer`,
    figure: `proposal for ${night}`,
    values: ["searched"],
    formula: `formula of a proposal for ${called} called`,
    formulaValues: ["search"],
  },
  {
    what: `order for ${night}: longest gap between frames to the first answer / in the search`,
    figure: `proposal for ${night}`,
    values: ["gapToFirst", "gapInSearch"],
  },
];

const ROWS: readonly Row[] = [
  {
    what: "what-if: the first choice",
    figure: "what-if, the first choice of all",
    values: ["took"],
    formula: "formula of what-if, the first choice",
  },
  {
    what: "what-if: without somebody",
    figure: "what-if: without somebody",
    values: SPREAD,
    formula: "formula of what-if: without somebody",
  },
  { what: "what-if: a dep on the chair", figure: "what-if: a dep on the chair", values: SPREAD },
  {
    what: "what-if: another key",
    figure: "what-if: another key",
    values: SPREAD,
    formula: "formula of what-if: another key",
  },
  { what: "what-if: another song (50 called)", figure: "what-if: another song", values: SPREAD },
  ...proposal(every, 60),
  ...proposal(spare, 50),
  { what: "a step of a song by key", figure: "stepping a song, key to paint", values: SPREAD },
  { what: "a move of a dragged song", figure: "dragging a song, move to paint", values: SPREAD },
  { what: "a dragged song let go", figure: "dropping a song, to paint", values: SPREAD },
];

const numberIn = (lines: readonly Line[], figure: string, value: string): number => {
  const found = lines.find((line) => line.figure === figure)?.[value];
  return typeof found === "number" ? found : Number.NaN;
};

const cell = (lines: readonly Line[], figure: string | undefined, values: readonly string[]): string =>
  figure === undefined ? "" : values.map((value) => ms(numberIn(lines, figure, value))).join(" / ");

/** The budgets, each for the processor it speaks of. */
const figuresOf = (lines: readonly Line[]): readonly Figure[] => {
  const choices = ["without somebody", "a dep on the chair", "another key", "another song"];
  const at = (what: string, figure: string, value: string, budget: number): Figure =>
    atMost(what, numberIn(lines, figure, value), budget, ms);
  return [
    at("what-if, the first choice, 4x slower", "what-if, the first choice of all, 4x", "took", 200),
    ...choices.flatMap((choice) =>
      SPREAD.map((p) => at(`what-if, ${choice}, ${p}, 4x slower`, `what-if: ${choice}, 4x`, p, 200)),
    ),
    ...[every, spare].flatMap((night) => [
      at(`order for ${night}: first answer, 4x slower`, `proposal for ${night}, 4x`, "first", 200),
      at(`order for ${night}: searched, full speed`, `proposal for ${night}, 1x`, "searched", 1000),
    ]),
    at("a step of a song, p95, 4x slower", "stepping a song, key to paint, 4x", "p95", 200),
  ];
};

/** What is supposed about a gig, and its running order, in the built client in a browser. */
export const gigPart: Part = {
  name: "gig",
  title: "A gig in a browser",
  program: "gig.ts",
  always: true,
  show: (lines) => {
    const figures = figuresOf(lines);
    const { version, documentBytes } = lines.find(({ figure }) => figure === "browser") ?? {};
    const browser = `- Chromium ${version} (headless, no GPU); the document has ${(Number(documentBytes) / 1e6).toFixed(1)} MB`;
    const rows = ROWS.map(({ what, figure, values, formula, formulaValues = values }) => [
      what,
      cell(lines, `${figure}, 4x`, values),
      cell(lines, formula === undefined ? undefined : `${formula}, 4x`, formulaValues),
      cell(lines, `${figure}, 1x`, values),
      cell(lines, formula === undefined ? undefined : `${formula}, 1x`, formulaValues),
    ]);
    const head = ["", "4x slower", "formula alone", "full speed", "formula alone"];
    return {
      figures,
      markdown: `${browser}\n${ABOUT}\n\n${figureTable(figures)}\n\n${table(head, rows)}`,
    };
  },
};
