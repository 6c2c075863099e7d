/**
 * How long readiness takes on a full board and at twice and four times its size.
 * `node tests/run.mjs tests/bench/readiness.ts` prints one JSON line per size; times are milliseconds of one core.
 */
import { readFileSync } from "node:fs";
import type { SongFile } from "#shared/board/board.ts";
import { DEFAULT_SETTINGS } from "#shared/board/settings.ts";
import type { Level } from "#shared/board/status.ts";
import { rememberedReady } from "#shared/readiness/gates-cache.ts";
import { createReadiness, type Readiness } from "#shared/readiness/readiness-cache.ts";
import type { ScoreInput } from "#shared/readiness/score-input.ts";
import { type BigBoard, type BoardSize, bigBoard } from "#tests/support/big-board.ts";

const DAY = 86_400_000;
const NAMES = { member: (id: string) => id, chair: (id: string) => id };

const inputFor = (board: BigBoard, file: SongFile, ahead = 0): ScoreInput => ({
  file,
  chairs: board.chairs,
  lineUp: board.lineUp,
  settings: DEFAULT_SETTINGS,
  t: board.now + ahead * DAY,
  asOf: board.now,
});

const timed = (work: () => void): number => {
  const start = performance.now();
  work();
  return performance.now() - start;
};

const summary = (times: readonly number[]): { p50: number; p95: number; max: number } => {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number): number =>
    Number((sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN).toFixed(3));
  return { p50: at(0.5), p95: at(0.95), max: at(1) };
};

/** Everything the board screen asks after a change: scores today and on the night, gates on the night. */
const askAll = (readiness: Readiness, board: BigBoard, files: readonly SongFile[]): void => {
  for (const file of files) {
    readiness.scoreSong(inputFor(board, file));
    const night = inputFor(board, file, 9);
    rememberedReady(night, { gig: null, names: NAMES }, readiness.scoreSong(night));
  }
};

const scoreAll = (readiness: Readiness, board: BigBoard, files: readonly SongFile[]): void => {
  for (const file of files) readiness.scoreSong(inputFor(board, file));
};

/** The files after one mark: one new song file, the rest as they were. */
const ticked = (files: readonly SongFile[], n: number): readonly SongFile[] => {
  const at = n % files.length;
  return files.map((file, i) => {
    if (i !== at) return file;
    const card = file.cards[(n * 7) % file.cards.length];
    if (card === undefined) return file;
    const marks = new Map(file.statuses.get(card.id));
    for (const [member, mark] of marks) {
      const level = ((mark.level + 1) % 4) as Level;
      marks.set(member, { ...mark, level, anchor: mark.anchor + 1 });
      break;
    }
    return { ...file, statuses: new Map(file.statuses).set(card.id, marks) };
  });
};

const retaken = (files: readonly SongFile[], n: number, now: number): readonly SongFile[] =>
  files.map((file, i) => {
    const last = file.takes.at(-1);
    return i !== n % files.length || last === undefined
      ? file
      : { ...file, takes: [...file.takes, { ...last, id: `z${n}`, at: now - 1000 + n }] };
  });

const measure = (size: BoardSize) => {
  const board = bigBoard(size);
  const scratch = Array.from({ length: 15 }, () =>
    timed(() => scoreAll(createReadiness(), board, board.files)),
  );
  const full = Array.from({ length: 9 }, () => timed(() => askAll(createReadiness(), board, board.files)));
  const readiness = createReadiness();
  let files = board.files;
  askAll(readiness, board, files);
  const repeat = (change: (n: number) => readonly SongFile[], ask: typeof askAll): number[] =>
    Array.from({ length: 200 }, (_, n) => {
      files = change(n);
      return timed(() => ask(readiness, board, files));
    });
  return {
    ...size,
    fromScratch: { first: Number((scratch[0] ?? 0).toFixed(1)), ...summary(scratch.slice(5)) },
    fromScratchWithGates: summary(full.slice(3)),
    oneTick: summary(repeat((n) => ticked(files, n), scoreAll)),
    oneTickWithNightAndGates: summary(repeat((n) => ticked(files, n + 31), askAll)),
    oneTake: summary(repeat((n) => retaken(files, n, board.now), scoreAll)),
  };
};

const FULL: BoardSize = { songs: 60, chairs: 8, cards: 10, takes: 10_000 };
const cpu = /model name\s*: (.*)/.exec(readFileSync("/proc/cpuinfo", { encoding: "utf8" }))?.[1] ?? "unknown";

for (const factor of [1, 2, 4]) {
  const sizes: readonly BoardSize[] =
    factor === 1
      ? [FULL]
      : [
          { ...FULL, takes: FULL.takes * factor },
          { ...FULL, songs: FULL.songs * factor, takes: FULL.takes * factor },
        ];
  for (const size of sizes)
    console.log(JSON.stringify({ bench: "readiness", node: process.version, cpu, ...measure(size) }));
}
