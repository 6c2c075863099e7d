import { AddDetail } from "#client/pieces/detail/add-detail.tsx";
import { DetailRow } from "#client/pieces/detail/detail-row.tsx";
import { NewsBar } from "#client/pieces/detail/news-bar.tsx";
import { useHeldList } from "#client/pieces/use-held-list.ts";
import type { SongView } from "#client/store/song-view.ts";
import type { DetailLine } from "#shared/selectors/part-view.ts";
import { songDetails } from "#shared/selectors/song-details.ts";

const idOf = ({ card }: DetailLine): string => card.id;

/** The details of the whole song in playing order; those nobody has placed yet come first. */
export const SongDetails = ({ view }: { readonly view: SongView }) => {
  const { file, chairs, lineUp, today } = view;
  const list = useHeldList(songDetails({ file, chairs, lineUp, score: today }), idOf);
  const spotted = list.shown.filter(({ item }) => item.card.chairs.length === 0);
  const placed = list.shown.filter(({ item }) => item.card.chairs.length > 0);
  const rows = (held: typeof list.shown) => (
    <ol>
      {held.map(({ item, gone }) => (
        <DetailRow key={item.card.id} line={item} song={file} control="none" gone={gone} />
      ))}
    </ol>
  );
  return (
    <>
      {spotted.length === 0 ? null : (
        <section aria-labelledby="spotted" className="mb-4">
          <h3 id="spotted" className="caption pt-2">
            Spotted, waiting for a chair: they count for nothing until they are placed
          </h3>
          {rows(spotted)}
        </section>
      )}
      {placed.length === 0 && spotted.length === 0 ? (
        <p className="caption py-2">
          No details yet. Start with the ending, the stops and the first entries: what would wreck the song if
          somebody missed it?
        </p>
      ) : (
        rows(placed)
      )}
      <NewsBar list={list} />
      <div className="pt-4">
        <AddDetail
          song={file}
          chairs={[]}
          label="Add a detail you spotted"
          hint="Say whose it is below, or place it later."
        />
      </div>
    </>
  );
};
