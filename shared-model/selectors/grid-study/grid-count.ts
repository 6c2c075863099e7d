/** What a detail's grid is counted by: what the section of its place says, else the song. */
import type { SongFile } from "../../board/board.ts";
import type { Card } from "../../board/card.ts";
import type { Section } from "../../board/song.ts";

/** What a section may have of its own; empty or null = as the song. */
interface OwnCount {
  readonly metre?: string;
  readonly tempo?: number | null;
}

export interface GridCount {
  /** As it is written: `4/4`. */
  readonly metre: string;
  /** Counted beats per minute; null = not settled. */
  readonly tempo: number | null;
}

export const gridCount = (
  { song, sections }: Pick<SongFile, "song" | "sections">,
  { where }: Pick<Card, "where">,
): GridCount => {
  const section: (Section & OwnCount) | undefined = sections.find(({ id }) => id === where.from?.section);
  return { metre: section?.metre || song.metre, tempo: section?.tempo ?? song.tempo };
};
