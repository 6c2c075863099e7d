import { GridStudy } from "#client/pieces/grid/grid-study.tsx";
import { GridsView } from "#client/pieces/grid/grids-view.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { gridsByPlace } from "#shared/selectors/grid-study/grids-by-place.ts";

/** The song's grids in playing order, under the place each belongs to. */
export const SongGrids = ({ file }: { readonly file: SongFile }) => (
  <>
    {gridsByPlace(file).map(({ place, cards }) => (
      <section key={place} aria-label={`Grids: ${place}`} className="mt-3">
        <h3 className="caption">{place}</h3>
        <ul>
          {cards.map((card) => (
            <li key={card.id} className="border-b border-line py-2">
              <p>{card.text}</p>
              <GridsView card={card} song={file} />
              <GridStudy card={card} song={file} />
            </li>
          ))}
        </ul>
      </section>
    ))}
  </>
);
