import type { Id } from "./ids.ts";

/** How much a chair plays in a stretch of the form. */
export const PRESENCES = ["rest", "light", "play", "full"] as const;
export type Presence = (typeof PRESENCES)[number];

/** Whose reading of who plays when: of the recording, or of how we play it. */
export const TEXTURE_SOURCES = ["recorded", "ours"] as const;
export type TextureSource = (typeof TEXTURE_SOURCES)[number];

/** From this bar of a section on, a chair plays like that. */
export interface TextureChange {
  /** From 1. */
  readonly bar: number;
  /** In this pass of a repeated section, from 1; null = in every pass. */
  readonly pass: number | null;
  readonly presence: Presence;
}

/** What is said of one section and one chair, every pass first, then by pass and bar. Empty = nothing is said. */
export type TextureChanges = readonly TextureChange[];

/** Where a song keeps what is said of one section and one chair: the document's key without the song. */
export const textureKey = (section: Id, chair: Id, source: TextureSource): string =>
  `${section}/${chair}/${source}`;
