import { Accordion } from "#client/ui/accordion.tsx";
import type { CardKind } from "#shared/board/card.ts";
import type { Grid, Shape } from "#shared/board/grid.ts";
import type { Song } from "#shared/board/song.ts";
import { GRID_KINDS, SHAPE_KINDS } from "#shared/selectors/grid-draft.ts";
import { GridFields } from "./grid-fields.tsx";
import { ShapeFields } from "./shape-fields.tsx";

/** What a detail shows beside its words, while somebody writes it. */
export interface Drawn {
  readonly grid: Grid | null;
  readonly shape: Shape | null;
}

export interface DrawnFieldsProps {
  readonly drawn: Drawn;
  readonly onChange: (drawn: Drawn) => void;
  readonly song: Song;
  readonly kind: CardKind;
  /** Chairs of the detail. */
  readonly chairs: readonly string[];
}

/** The grid and the shape of a detail: unfolded where its kind has them usually, one tap away everywhere else. */
export const DrawnFields = ({ drawn, onChange, song, kind, chairs }: DrawnFieldsProps) => (
  <div>
    <Accordion summary="Grid" startOpen={drawn.grid !== null || GRID_KINDS.has(kind)}>
      <div className="py-2">
        <GridFields
          grid={drawn.grid}
          onChange={(grid) => onChange({ ...drawn, grid })}
          metre={song.metre}
          chairs={chairs}
        />
      </div>
    </Accordion>
    <Accordion summary="Shape" startOpen={drawn.shape !== null || SHAPE_KINDS.has(kind)}>
      <div className="py-2">
        <ShapeFields
          shape={drawn.shape}
          onChange={(shape) => onChange({ ...drawn, shape })}
          chairs={chairs}
          capo={song.capo}
        />
      </div>
    </Accordion>
  </div>
);
