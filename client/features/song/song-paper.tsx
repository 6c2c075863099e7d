import { Partner } from "#client/pieces/detail-line.tsx";
import { DrawnView } from "#client/pieces/drawn-view.tsx";
import { DifferenceLines } from "#client/pieces/grid/difference-lines.tsx";
import { TakeLine } from "#client/pieces/take-line.tsx";
import { useBand } from "#client/store/hooks.ts";
import type { SongView } from "#client/store/song-view.ts";
import { castingOf } from "#shared/board/line-up.ts";
import { formatWhere } from "#shared/board/where.ts";
import { gridCount } from "#shared/selectors/grid-study/grid-count.ts";
import type { DetailLine } from "#shared/selectors/part-view.ts";
import { songDetails } from "#shared/selectors/song-details.ts";
import { SONG_ENTRY, type SongEntryName } from "#shared/selectors/song-entries.ts";

/** What goes over the details, each only where it is settled. */
const FACTS: readonly SongEntryName[] = [
  "version",
  "key",
  "liftKey",
  "tempo",
  "metre",
  "length",
  "tuning",
  "capo",
  "countIn",
  "firstChord",
  "ending",
  "notes",
];
const TAKES = 3;

const Facts = ({ view }: { readonly view: SongView }) => {
  const { song } = view.file;
  const { tuning } = useBand();
  const shown = FACTS.map((name) => ({
    name,
    label: SONG_ENTRY[name].label,
    value: name === "tuning" && song.tuning === "" ? tuning : SONG_ENTRY[name].show(song),
  })).filter(({ value }) => value !== "");
  return (
    <dl className="grid grid-cols-[auto_1fr_auto_1fr] gap-x-4 text-small">
      {shown.map(({ name, label, value }) => (
        <div key={name} className="contents">
          <dt className="text-quiet">{label}</dt>
          <dd className="font-semibold">{value}</dd>
        </div>
      ))}
    </dl>
  );
};

const Detail = ({ line, view }: { readonly line: DetailLine; readonly view: SongView }) => {
  const { card, standings } = line;
  return (
    <li className="break-inside-avoid border-b border-line py-1 text-small">
      <span className="text-quiet">
        {formatWhere(card.where, view.file.sections)} · {card.weight}
        {card.kind === "general" ? "" : ` · ${card.kind}`}
      </span>
      <span className={card.weight === "must" ? "block font-semibold" : "block"}>{card.text}</span>
      {card.right === "" ? null : <span className="block text-quiet">→ {card.right}</span>}
      <DrawnView card={card} song={view.file} paper />
      {card.grid === undefined || card.recordedGrid === undefined ? null : (
        <DifferenceLines
          ours={card.grid}
          recorded={card.recordedGrid}
          metre={gridCount(view.file, card).metre}
        />
      )}
      <span className="flex flex-wrap gap-x-3 text-quiet">
        {standings.map((standing) => (
          <Partner key={standing.chair} standing={standing} names={view.names} />
        ))}
      </span>
    </li>
  );
};

/** The song on one sheet of paper: facts, form, who plays, every detail in playing order, the last takes. */
export const SongPaper = ({ view }: { readonly view: SongView }) => {
  const { file, chairs, lineUp, today, names } = view;
  const form = file.sections.map(({ name, bars }) => `${name} ${bars}`).join(" · ");
  const cast = chairs.map(({ id, name }) => {
    const player = lineUp.get(id) ?? null;
    if (!castingOf(file, id).plays) return `${name}: tacet`;
    return `${name}: ${player === null ? "nobody" : names.member(player)}`;
  });
  const details = songDetails({ file, chairs, lineUp, score: today });
  return (
    <section className="hidden print:block">
      <p className="final-barline mb-3 text-title">{file.song.title}</p>
      <Facts view={view} />
      <p className="mt-2 border-y border-line py-1 font-semibold">{form || "The form is not written yet."}</p>
      <p className="mt-1 text-small text-quiet">{cast.join(" · ")}</p>
      <ol className="mt-3 columns-2 gap-8">
        {details.map((line) => (
          <Detail key={line.card.id} line={line} view={view} />
        ))}
      </ol>
      <ol className="mt-3 text-small">
        {[...file.takes]
          .reverse()
          .slice(0, TAKES)
          .map((take) => (
            <li key={take.id}>
              <TakeLine take={take} song={file} />
            </li>
          ))}
      </ol>
    </section>
  );
};
