import { useInPlace } from "#client/pieces/use-in-place.ts";
import type { DepGigStore } from "#client/store/dep-gig.ts";
import { Button } from "#client/ui/button.tsx";
import type { DepSong } from "#shared/protocol/dep-api.ts";
import {
  type DepNotes,
  depFacts,
  depForm,
  depNotes,
  detailsShown,
  type KeptAnswer,
  questionsShown,
} from "#shared/selectors/dep-view.ts";
import { AskForm } from "./ask-form.tsx";
import { DepDetailRow } from "./dep-detail.tsx";
import { DepQuestions } from "./dep-questions.tsx";

const Notes = ({ notes }: { readonly notes: DepNotes }) => (
  <dl className="grid grid-cols-[auto_1fr] gap-x-4">
    {notes.map(({ label, text }) => (
      <div key={label} className="contents">
        <dt className="text-quiet">{label}</dt>
        <dd>{text}</dd>
      </div>
    ))}
  </dl>
);

/** What stands in the place of details where there is nothing to learn. */
const nothingWords = (song: DepSong, onlyMusts: boolean): string => {
  if (song.parts.length === 0) return "You do not sit in on this song.";
  if (song.parts.every(({ tacet }) => tacet)) return "Tacet: your chair has nothing to play here.";
  if (song.details.length === 0) return "Nobody has written anything special for your chair.";
  return onlyMusts ? "No musts here." : "";
};

export interface DepSongBlockProps {
  readonly song: DepSong;
  /** Place in the running order, from 1. */
  readonly place: number;
  readonly onlyMusts: boolean;
  readonly kept: readonly KeptAnswer[];
  readonly store: DepGigStore;
}

/** One song of the night: what everybody plays by, then the details of the dep's chair in playing order. */
export const DepSongBlock = ({ song, place, onlyMusts, kept, store }: DepSongBlockProps) => {
  const { root, editing, edit, done } = useInPlace<HTMLElement>("[data-ask-song]");
  const shown = detailsShown(song, onlyMusts);
  const tacets = song.parts.filter(({ tacet }) => tacet).map(({ name }) => name);
  const partly = tacets.length > 0 && tacets.length < song.parts.length;
  const facts = depFacts(song);
  return (
    <section ref={root} aria-labelledby={`song-${place}`} className="pt-8">
      <h2
        id={`song-${place}`}
        data-song={song.id}
        tabIndex={-1}
        className="border-b border-control pb-1 text-title font-semibold"
      >
        <span className="text-quiet">{place}</span> {song.title}
      </h2>
      <p className="pt-2 text-room font-semibold">
        {facts.length === 0 ? "Key and tempo are not settled." : facts.join(" · ")}
      </p>
      <Notes notes={depNotes(song)} />
      <p className="mt-1 border-y border-line py-1">{depForm(song) || "The form is not written yet."}</p>
      {partly ? <p className="expression pt-2">{tacets.join(", ")}: tacet</p> : null}
      {shown.length === 0 ? <p className="expression py-3">{nothingWords(song, onlyMusts)}</p> : null}
      <ol>
        {shown.map((detail) => (
          <DepDetailRow key={detail.id} detail={detail} song={song} kept={kept} store={store} />
        ))}
      </ol>
      <DepQuestions questions={questionsShown(song, null, kept)} store={store} />
      {editing ? (
        <AskForm
          about={song.title}
          onAsk={(text) => {
            store.ask(song.id, null, text);
            done();
          }}
          onLeave={done}
        />
      ) : (
        <Button
          data-ask-song
          aria-label={`Ask about this song: ${song.title}`}
          className="mt-3"
          onClick={edit}
        >
          Ask about this song
        </Button>
      )}
    </section>
  );
};
