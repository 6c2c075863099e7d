import { useState } from "react";
import { dayText } from "#client/pieces/day-text.ts";
import type { DepGigStore, DepState } from "#client/store/dep-gig.ts";
import { Button } from "#client/ui/button.tsx";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { ErrorNote } from "#client/ui/error-note.tsx";
import { FilterToggle } from "#client/ui/filter-toggle.tsx";
import { ListRow } from "#client/ui/list-row.tsx";
import { PageHeading, SectionHeading } from "#client/ui/page-heading.tsx";
import { usePrinting } from "#client/ui/use-printing.ts";
import { dayOf } from "#shared/lib/calendar.ts";
import type { DepGig } from "#shared/protocol/dep-api.ts";
import { listed } from "#shared/readiness/names.ts";
import { depAgreed, depFacts, progressWords, strayAnswers } from "#shared/selectors/dep-view.ts";
import { DepPaper } from "./dep-paper.tsx";
import { Refused, stateWords } from "./dep-questions.tsx";
import { DepSongBlock } from "./dep-song.tsx";
import { useDepGig } from "./use-dep-gig.ts";

export interface DepScreenProps {
  readonly store: DepGigStore;
  /** Device clock, ms. */
  readonly now: () => number;
}

const toSong = (song: string): void => {
  const heading = [...document.querySelectorAll<HTMLElement>("[data-song]")].find(
    ({ dataset }) => dataset.song === song,
  );
  heading?.scrollIntoView({ block: "start" });
  heading?.focus({ preventScroll: true });
};

const RunningOrder = ({ gig, state }: { readonly gig: DepGig; readonly state: DepState }) => (
  <>
    <SectionHeading
      title="Running order"
      aside={gig.songs.length === 1 ? "1 song" : `${gig.songs.length} songs`}
    />
    {gig.songs.length === 0 ? (
      <p className="text-quiet">No song is called yet. Look again later: the list fills here by itself.</p>
    ) : null}
    <ol>
      {gig.songs.map((song, i) => (
        <ListRow
          key={song.id}
          lead={<span className="w-6 text-right text-quiet">{i + 1}</span>}
          note={depFacts(song).join(" · ")}
          onOpen={() => toSong(song.id)}
          trail={<span className="caption">{progressWords(song, state.answers)}</span>}
        >
          {song.title}
        </ListRow>
      ))}
    </ol>
  </>
);

/** Answers whose song or detail left the gig: nothing said is lost from sight. */
const Strays = ({
  gig,
  state,
  store,
}: {
  readonly gig: DepGig | null;
  readonly state: DepState;
  readonly store: DepGigStore;
}) => {
  const strays = strayAnswers(gig?.songs ?? [], state.answers);
  if (strays.length === 0) return null;
  return (
    <section aria-labelledby="strays" className="pt-6">
      <h2 id="strays" className="font-semibold">
        What you said about something that is not shown any more
      </h2>
      <ul>
        {strays.map(({ answer, state: became, sentence }) => (
          <li key={answer.id} className="border-b border-line py-2">
            <p>{answer.kind === "ask" ? answer.text : "Got it, about a detail"}</p>
            {became === "refused" ? (
              <Refused id={answer.id} sentence={sentence} store={store} />
            ) : (
              <p className="caption">{stateWords(became)}</p>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
};

const NoGig = ({ state }: { readonly state: DepState }) => (
  <>
    <PageHeading
      title={state.connection === "refused" ? "This gig is closed to this phone" : "Your gig is on its way"}
    />
    {state.connection === "refused" ? (
      <EmptyState title={state.reason}>What you had said and was saved is with the band.</EmptyState>
    ) : (
      <p className="caption pt-4">
        This phone opens the gig for the first time and needs a signal once. After that it works without.
      </p>
    )}
  </>
);

const Night = ({
  gig,
  state,
  store,
  now,
}: DepScreenProps & { readonly gig: DepGig; readonly state: DepState }) => {
  const [onlyMusts, setOnlyMusts] = useState(false);
  const printing = usePrinting();
  const { timeZone } = Intl.DateTimeFormat().resolvedOptions();
  const when = dayText(gig.date, dayOf(now(), timeZone));
  return (
    <>
      {printing ? <DepPaper gig={gig} onlyMusts={onlyMusts} /> : null}
      <div className="no-print max-w-3xl">
        <PageHeading
          title={gig.name || gig.place || "The gig"}
          above={[when, gig.place, gig.band].filter((part) => part !== "").join(" · ")}
        />
        {state.reason === "" ? null : <ErrorNote title={state.reason} />}
        <p className="text-room">
          {gig.chairs.length === 0
            ? `${gig.you}, you are not on this gig's line-up yet. Ask the band's leader to seat you.`
            : `${gig.you}, you sit in on ${listed(gig.chairs)}.`}
        </p>
        <dl className="grid grid-cols-[auto_1fr] gap-x-4 py-2 text-room">
          {depAgreed(gig).map(([label, said]) => (
            <div key={label} className="contents">
              <dt className="text-quiet">{label}</dt>
              <dd>{said}</dd>
            </div>
          ))}
        </dl>
        <p className="text-quiet">
          Read each detail, then say “Got it”, or ask. Without signal, what you say stays on this phone and is
          sent later.
        </p>
        <div className="mt-2 flex flex-wrap items-center gap-3">
          <FilterToggle pressed={onlyMusts} onChange={setOnlyMusts}>
            Only musts
          </FilterToggle>
          <Button onClick={() => window.print()}>Print, one song a page</Button>
        </div>
        <RunningOrder gig={gig} state={state} />
        {gig.songs.map((song, i) => (
          <DepSongBlock
            key={song.id}
            song={song}
            place={i + 1}
            onlyMusts={onlyMusts}
            kept={state.answers}
            store={store}
          />
        ))}
        <Strays gig={gig} state={state} store={store} />
      </div>
    </>
  );
};

/** One gig for a dep: the running order, the details of the chair they sit in on, and their two answers. */
export const DepScreen = ({ store, now }: DepScreenProps) => {
  const state = useDepGig(store);
  if (state.gig !== null) return <Night gig={state.gig} state={state} store={store} now={now} />;
  return (
    <>
      <NoGig state={state} />
      <Strays gig={null} state={state} store={store} />
    </>
  );
};
