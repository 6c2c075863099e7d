import { atMost, type Figure, figureTable, type Line, ms, type Part } from "./part.ts";

const kB = (value: number): string => `${value} kB`;

const ABOUT = `- Board in the browser: 60 songs × 8 chairs × 5,000 details, 1,200 takes
- Times are with a processor made four times slower. Slow 4G holds the bytes up on the wire: 1.6 Mbit/s down,
  750 kbit/s up, 150 ms round trip. A tick runs from the tap to the next paint (Event Timing, in steps of 8 ms), a
  remote change from the other device's command, through the server's disk, to the paint, 200 changes from the message
  that brings them to the paint.`;

/** The values of the line that is called so. */
const valuesOf = (lines: readonly Line[], figure: string): Readonly<Record<string, number>> => {
  const found = lines.find((line) => line.figure === figure);
  if (found === undefined) throw new Error(`No figure called ${figure}.`);
  return found as Readonly<Record<string, number>>;
};

const figuresOf = (lines: readonly Line[]): Figure[] => {
  const figures: Figure[] = [];
  const add = (what: string, figure: string, value: string, budget: number, write = ms): void => {
    figures.push(atMost(what, valuesOf(lines, figure)[value] ?? Number.NaN, budget, write));
  };
  const bundle = "phone bundle, kB gzip";
  add("phone: JavaScript until a detail can be marked, gzip", bundle, "js", 120, kB);
  add("phone: CSS, gzip", bundle, "css", 15, kB);
  const more = Object.entries(valuesOf(lines, "other screens, kB gzip more")).filter(
    ([name]) => name !== "figure",
  );
  const [heaviest, weight] = more.sort(([, a], [, b]) => b - a)[0] ?? ["none", Number.NaN];
  figures.push(atMost(`heaviest other screen (${heaviest}), gzip, on top`, weight, 60, kB));
  add("phone: nodes with a song open", "phone DOM with a song open", "nodes", 1200, String);
  const cold = "cold open on slow 4G, 4x";
  add("phone: cold open on slow 4G, first paint", cold, "firstPaint", 1200);
  add("phone: cold open on slow 4G, first detail that can be marked", cold, "firstTickable", 2500);
  const reopen = "reopen offline, 4x";
  add("phone: reopen without signal, first paint", reopen, "firstPaint", 300);
  add("phone: reopen without signal, first detail that can be marked", reopen, "firstTickable", 800);
  add("phone: tick to paint, p50", "tick to paint, phone, 4x", "p50", 48);
  add("phone: tick to paint, p95", "tick to paint, phone, 4x", "p95", 120);
  add("phone: remote change to paint, p95", "remote change to paint, phone, 4x", "p95", 60);
  add("board: remote change to paint, p95", "remote change to paint, board, 4x", "p95", 120);
  add("phone: 200 changes at once", "catch-up of 200 changes, phone, 4x", "last", 100);
  add("board: 200 changes at once", "catch-up of 200 changes, board, 4x", "last", 300);
  const bytes = (value: number): string => `${value} B`;
  add("bytes on the wire when nothing is new", "bytes on the wire when nothing is new", "bytes", 5000, bytes);
  return figures;
};

/** The built client on the real server in a browser. */
export const browserPart: Part = {
  name: "browser",
  title: "Client in a browser",
  program: "browser.ts",
  always: true,
  show: (lines) => {
    const figures = figuresOf(lines);
    const { version, documentBytes } = lines.find(({ figure }) => figure === "browser") ?? {};
    const browser = `- Chromium ${version} (headless, no GPU); the document has ${(Number(documentBytes) / 1e6).toFixed(1)} MB`;
    return { figures, markdown: `${browser}\n${ABOUT}\n\n${figureTable(figures)}` };
  },
};
