import { type Figure, type Line, type Part, reachedWord, table } from "./part.ts";

/** A row of a workload's table: what it shows and how much it may be. */
interface Row {
  readonly what: string;
  readonly field: string;
  readonly unit: string;
  readonly most?: number;
}

interface Workload {
  readonly id: string;
  readonly about: string;
  readonly rows: readonly Row[];
}

const WORKLOADS: readonly Workload[] = [
  {
    id: "A",
    about:
      "A: one board of 4,800 details, six clients with documents, a tick every 100 ms; from the command to the other documents, all in one thread",
    rows: [
      { what: "tick → seen, p50", field: "p50", unit: "ms" },
      { what: "tick → seen, p99", field: "p99", unit: "ms", most: 12 },
      { what: "server, of one core", field: "cpuPercent", unit: "%" },
      { what: "ticks seen", field: "seen", unit: "" },
      { what: "ticks that should be", field: "expected", unit: "" },
    ],
  },
  {
    id: "B",
    about: "B: 200 boards of 600 details × 5 thin clients, 1,000 ticks a second",
    rows: [
      { what: "tick → seen, p50", field: "p50", unit: "ms" },
      { what: "tick → seen, p99", field: "p99", unit: "ms", most: 75 },
      { what: "server, of one core", field: "cpuPercent", unit: "%", most: 52 },
      { what: "memory, all connected", field: "loadedMb", unit: "MB" },
      { what: "memory, peak", field: "peakMb", unit: "MB", most: 700 },
      { what: "ticks seen", field: "seen", unit: "" },
      { what: "ticks that should be", field: "expected", unit: "" },
    ],
  },
  {
    id: "C",
    about:
      "C: a client without anything joins a board of three years (60 songs × 8 chairs × 10 details, 72,000 changes of a status, 10,000 takes, 900 visits) on a server just started; median of five",
    rows: [
      { what: "until the document is complete", field: "complete", unit: "ms", most: 1200 },
      { what: "the slowest of five", field: "slowest", unit: "ms" },
      { what: 'until the server says "synced"', field: "synced", unit: "ms" },
      { what: "on the wire", field: "bytesIn", unit: "B" },
      { what: "the document", field: "documentBytes", unit: "B" },
      { what: "server's processor", field: "cpuMs", unit: "ms" },
      { what: "memory, peak", field: "peakMb", unit: "MB" },
    ],
  },
  {
    id: "D",
    about: "D: the server is killed (SIGKILL) eight times while a client ticks every 20 ms",
    rows: [
      { what: "ticks sent", field: "sent", unit: "" },
      { what: "acknowledged", field: "acknowledged", unit: "" },
      { what: "acknowledged and lost", field: "acknowledgedLost", unit: "", most: 0 },
      { what: "seen by another client", field: "seen", unit: "" },
      { what: "seen and lost", field: "seenLost", unit: "" },
    ],
  },
];

const OURS = "tightrow";
const OTHERS = [
  ["floor", "raw floor"],
  ["stock", "@y/websocket-server 0.1.1 + y-leveldb"],
  ["hocuspocus", "Hocuspocus 4.7 + SQLite"],
] as const;

/** The server side by side with others, in one run with one load. */
export const serverPart: Part = {
  name: "server",
  title: "Server",
  program: "server/server.ts",
  always: true,
  partial: (args) => args.length > 0,
  show: (lines) => {
    const measured = WORKLOADS.filter(({ id }) => lines.some(({ workload }) => workload === id));
    return {
      figures: measured.flatMap(({ id, rows }) => rows.flatMap((row) => figureOf(id, row, lines))),
      markdown: measured.map((workload) => tableOf(workload, lines)).join("\n\n"),
    };
  },
};

const measuredValue = (
  lines: readonly Line[],
  workload: string,
  peer: string,
  field: string,
): number | null => {
  const value = lines.find((line) => line.workload === workload && line.peer === peer)?.[field];
  return typeof value === "number" ? value : null;
};

const figureOf = (workload: string, { what, field, unit, most }: Row, lines: readonly Line[]): Figure[] => {
  if (most === undefined) return [];
  const value = measuredValue(lines, workload, OURS, field);
  const now = value === null ? "failed" : written(value, unit);
  const reached = value !== null && value <= most;
  return [{ what: `${workload}: ${what}`, now, budget: `≤ ${written(most, unit)}`, reached }];
};

const written = (value: number, unit: string): string =>
  `${value.toLocaleString("en-GB", { maximumFractionDigits: 2 })}${unit === "" ? "" : ` ${unit}`}`;

const tableOf = ({ id, about, rows }: Workload, lines: readonly Line[]): string => {
  const others = OTHERS.filter(
    ([peer]) => !(peer === "floor" && lines.every((line) => line.workload !== id || line.peer !== peer)),
  );
  const head = [
    "figure",
    ...others.map(([, title]) => title),
    "Tightrow",
    ...others.map(([peer]) => `ours ÷ ${peer}`),
    "reach",
    "reached",
  ];
  const cells = (row: Row): string[] => {
    const ours = measuredValue(lines, id, OURS, row.field);
    const [figure] = figureOf(id, row, lines);
    return [
      row.what,
      ...others.map(([peer]) => cellOf(lines, id, peer, row)),
      cellOf(lines, id, OURS, row),
      ...others.map(([peer]) => ratioOf(ours, measuredValue(lines, id, peer, row.field), row)),
      figure?.budget ?? "",
      figure === undefined ? "" : reachedWord(figure.reached),
    ];
  };
  return `${about}.\n\n${table(head, rows.map(cells))}`;
};

const cellOf = (lines: readonly Line[], workload: string, peer: string, { field, unit }: Row): string => {
  const value = measuredValue(lines, workload, peer, field);
  if (value !== null) return written(value, unit);
  return lines.some((line) => line.peer === peer && line.missing === true) ? "not installed" : "failed";
};

/** Counts are compared by eye; a ratio of them says nothing. */
const ratioOf = (ours: number | null, theirs: number | null, { unit }: Row): string =>
  ours === null || theirs === null || unit === "" ? "" : Number((ours / theirs).toPrecision(2)).toString();
