import type { StandNight } from "#shared/selectors/stand.ts";

/** Letters as large as so many rows leave room for on one page, A4 or Letter. */
const SIZES = [
  { rows: 14, letters: "text-[32pt] leading-[1.25]" },
  { rows: 24, letters: "text-[21pt] leading-[1.25]" },
  { rows: 36, letters: "text-[14pt] leading-[1.25]" },
] as const;

const blocksOf = ({ songs }: StandNight) =>
  [...new Set(songs.map(({ block }) => block))].map((block) => ({
    block,
    songs: songs.filter((song) => song.block === block),
  }));

const Order = ({ night }: { readonly night: StandNight }) => {
  const blocks = blocksOf(night);
  const rows = night.songs.length + (blocks.length > 1 ? blocks.length : 0);
  const letters = SIZES.find((size) => rows <= size.rows)?.letters ?? "text-[10pt] leading-[1.2]";
  return (
    <article className={`print-page ${letters}`}>
      <p className="border-b-2 border-ink pb-1 text-[16pt] font-semibold">
        {[night.title, night.player].filter((part) => part !== "").join(" · ")}
      </p>
      {blocks.map(({ block, songs }) => (
        <div key={block} className="pt-2">
          {blocks.length > 1 ? <p className="expression">Block {block + 1}</p> : null}
          {songs.map(({ id, lines }) => (
            <p key={id} data-order-line className="font-bold">
              {lines.find(({ name }) => name === "song")?.text}
            </p>
          ))}
        </div>
      ))}
    </article>
  );
};

/** The night on paper: the running order on a page, then every song in the very lines of the screen. */
export const StandPaper = ({ night }: { readonly night: StandNight }) => (
  <div className="hidden print:block">
    <Order night={night} />
    {night.songs.map(({ id, lines, must }) => (
      <article
        key={id}
        data-paper-song={id}
        className="break-inside-avoid border-b border-ink py-3 text-[17pt] leading-[1.25]"
      >
        {lines.map(({ name, text }) => (
          <p
            key={name}
            data-paper-line={name}
            className={name === "song" ? "text-[21pt] font-bold" : name === "must" && must ? "font-bold" : ""}
          >
            {text}
          </p>
        ))}
      </article>
    ))}
  </div>
);
