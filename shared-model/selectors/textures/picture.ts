/**
 * Who plays when, as one picture: sections × chairs.
 * Governing rule: what is not painted as ours is played as recorded; what is painted nowhere is not known, and no number is
 * made from it.
 */
import type { Chair, Instrument } from "../../board/band.ts";
import type { SongFile } from "../../board/board.ts";
import type { Id } from "../../board/ids.ts";
import { castingOf } from "../../board/line-up.ts";
import type { Section } from "../../board/song.ts";
import { type TextureChanges, type TextureSource, textureKey } from "../../board/texture.ts";
import { PRESENCE_LEVEL } from "../../music/texture.ts";
import { presenceAt } from "../../music/texture-changes.ts";

/** Common practice, no published source. */
const WEIGHTS: { readonly [I in Instrument]?: number } = { drums: 1.4, "lead voice": 1.3, bass: 1.2 };

export const weightOf = (instrument: Instrument): number => WEIGHTS[instrument] ?? 1;

export interface PaintedSection {
  readonly id: Id;
  /** Numbered where several sections share it. */
  readonly name: string;
  readonly bars: number;
  readonly passes: number;
}

export interface PaintedCell {
  readonly changes: TextureChanges;
  /** Where the changes come from; null = nobody said. */
  readonly from: TextureSource | null;
}

export interface PaintedPart {
  readonly chair: Id;
  readonly name: string;
  readonly short: string;
  readonly instrument: Instrument;
  readonly weight: number;
  /** In the order of the sections. */
  readonly cells: readonly PaintedCell[];
}

export interface Picture {
  readonly sections: readonly PaintedSection[];
  /** Chairs that play in the song, in column order. */
  readonly parts: readonly PaintedPart[];
}

const passesOf = (section: Section): number => section.repeats;

const namedSections = (sections: readonly Section[]): readonly PaintedSection[] =>
  sections.map((section) => {
    const alike = sections.filter(({ name }) => name === section.name);
    const name = alike.length > 1 ? `${section.name} (${alike.indexOf(section) + 1})` : section.name;
    return { id: section.id, name, bars: section.bars, passes: passesOf(section) };
  });

type Painted = Pick<SongFile, "song" | "sections" | "castings" | "textures" | "dismissed" | "cards">;

const cellOf = (file: Painted, section: Id, chair: Id, source: TextureSource): PaintedCell => {
  const own = file.textures.get(textureKey(section, chair, source));
  if (own !== undefined) return { changes: own, from: source };
  if (source === "recorded") return { changes: [], from: null };
  return cellOf(file, section, chair, "recorded");
};

/** The picture of a song. Tacet chairs are left out. */
export const pictureOf = (file: SongFile, chairs: readonly Chair[], source: TextureSource): Picture => ({
  sections: namedSections(file.sections),
  parts: chairs
    .filter(({ id }) => castingOf(file, id).plays)
    .map(({ id, name, short, instrument }) => ({
      chair: id,
      name,
      short,
      instrument,
      weight: weightOf(instrument),
      cells: file.sections.map((section) => cellOf(file, section.id, id, source)),
    })),
});

/** Level of a cell in one bar of one pass, 0 to 1; null = not known. */
export const levelAt = ({ changes }: PaintedCell, bar: number, pass: number): number | null => {
  const presence = presenceAt(changes, bar, pass);
  return presence === null ? null : PRESENCE_LEVEL[presence];
};

/** Mean level of a cell over its bars and passes, 0 to 1; null = not known. */
export const levelOf = (cell: PaintedCell, { bars, passes }: PaintedSection): number | null => {
  if (cell.changes.length === 0) return null;
  let sum = 0;
  for (let pass = 1; pass <= passes; pass += 1)
    for (let bar = 1; bar <= bars; bar += 1) sum += levelAt(cell, bar, pass) ?? 0;
  return sum / (bars * passes);
};

/** A chair's name, and whether it plays in a section at all. */
export const playsIn = (cell: PaintedCell, section: PaintedSection): boolean =>
  (levelOf(cell, section) ?? 0) > 0;
