import type { ReactNode } from "react";
import { useChairs } from "#client/store/hooks.ts";
import type { SongFile } from "#shared/board/board.ts";
import { type Card, SIDE_NAMES, type SideName, type StoredSide } from "#shared/board/card.ts";
import { readSide, sideCaution, sideWords } from "#shared/board/sides/detail-sides.ts";
import { CymbalsDrawing } from "./cymbals-drawing.tsx";
import { DynamicsDrawing } from "./dynamics-drawing.tsx";
import { HandDrawing } from "./hand-drawing.tsx";
import { ToneDrawing } from "./tone-drawing.tsx";

type Draw = (stored: StoredSide, song: SongFile) => ReactNode;

/** Sides that are drawn; of the others the sentence says all there is. */
const DRAWINGS: { readonly [S in SideName]?: Draw } = {
  tone: (stored) => {
    const value = readSide("tone", stored);
    return value && <ToneDrawing value={value} />;
  },
  dynamics: (stored) => {
    const value = readSide("dynamics", stored);
    return value && <DynamicsDrawing value={value} />;
  },
  cymbals: (stored, { sections }) => {
    const value = readSide("cymbals", stored);
    return value && <CymbalsDrawing value={value} sections={sections} />;
  },
  hand: (stored) => {
    const value = readSide("hand", stored);
    return value && <HandDrawing value={value} />;
  },
};

export interface SideViewProps {
  readonly side: SideName;
  readonly stored: StoredSide;
  readonly song: SongFile;
  /** To be read from where one plays. */
  readonly large?: boolean;
}

/** One side: its sentence, for eyes and ears, and its drawing. Nothing where nothing of it can be used. */
export const SideView = ({ side, stored, song, large = false }: SideViewProps) => {
  const chairs = useChairs();
  const value = readSide(side, stored);
  if (value === null) return null;
  const names = {
    chair: (id: string): string => chairs.find((chair) => chair.id === id)?.name ?? "a chair that is gone",
    sections: song.sections,
  };
  const caution = sideCaution(side, value);
  return (
    <figure className={`my-2 break-inside-avoid print:my-1 ${large ? "text-title" : ""}`}>
      {DRAWINGS[side]?.(value, song)}
      <figcaption className="mt-1 print:mt-0">{sideWords(side, value, names)}</figcaption>
      {caution === null ? null : <p className="caption">{caution}</p>}
    </figure>
  );
};

export interface SideViewsProps {
  readonly sides: NonNullable<Card["sides"]>;
  readonly song: SongFile;
  readonly large?: boolean;
}

/** Everything a detail says beside its words but its grid and its shape. */
export const SideViews = ({ sides, ...rest }: SideViewsProps) =>
  SIDE_NAMES.map((side) => {
    const stored = sides[side];
    return stored === undefined ? null : <SideView key={side} side={side} stored={stored} {...rest} />;
  });
