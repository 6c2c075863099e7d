/** What can be practised without an instrument and without a sound: on a train, say. */
import type { CardKind } from "../../board/card.ts";

/** Kinds that are counted, remembered or imagined. Common practice, no published source. */
const QUIET: ReadonlySet<CardKind> = new Set([
  "count-in", "form", "ending", "stop", "entry", "rest", "key", "lift", "tempo", "cover", "attitude", "cymbals",
  "vocal entry", "breath", "call", "dynamics",
] satisfies readonly CardKind[]); // biome-ignore format: one glance

export const isQuiet = (kind: CardKind): boolean => QUIET.has(kind);

/** The first of a ranked list that makes no sound; else the first of all. */
export const bestQuietly = <T extends { readonly kind: CardKind }>(ranked: readonly T[]): T | undefined =>
  ranked.find(({ kind }) => isQuiet(kind)) ?? ranked[0];
