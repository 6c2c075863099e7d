/** The boards that the workloads run on, as whole Yjs updates. */
import * as Y from "yjs";
import { type FullSize, seedFull } from "#tests/support/seed-full.ts";
import { threeYears } from "./three-years.ts";

/** Before every moment a workload writes, so that a new mark always wins. */
const LOOKED_AT = Date.UTC(2025, 11, 1);

const sized = (size: FullSize) => (): Uint8Array => {
  const ydoc = new Y.Doc();
  ydoc.clientID = 4242;
  seedFull(ydoc, LOOKED_AT, size);
  return Y.encodeStateAsUpdate(ydoc);
};

export interface BenchBoard {
  readonly cards: number;
  readonly chairs: number;
  readonly build: () => Uint8Array;
}

export const BOARDS = {
  full: { cards: 4800, chairs: 8, build: sized({ songs: 60, chairs: 8, cards: 4800, takes: 20 }) },
  small: { cards: 600, chairs: 5, build: sized({ songs: 20, chairs: 5, cards: 600, takes: 5 }) },
  threeYears: { cards: 4800, chairs: 8, build: threeYears },
} as const satisfies Record<string, BenchBoard>;

export type BoardName = keyof typeof BOARDS;
