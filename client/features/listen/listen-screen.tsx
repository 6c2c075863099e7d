import { useState } from "react";
import { songLink } from "#client/pieces/links.ts";
import { step, useActTogether } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor, useChairs, useSongView } from "#client/store/hooks.ts";
import { useStand } from "#client/store/presence-hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { PageHeading, SectionHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { LAPTOP, useMediaQuery } from "#client/ui/use-media-query.ts";
import type { SongFile } from "#shared/board/board.ts";
import { castingOf } from "#shared/board/line-up.ts";
import { addDetail } from "#shared/commands/add-detail.ts";
import { placeOf, SPOTTED_MAX, type Spotted } from "#shared/selectors/spotting.ts";
import { RunningClock } from "./running-clock.tsx";
import { SpottedRow } from "./spotted-row.tsx";
import { useDropKeys } from "./use-drop-keys.ts";
import { useListening } from "./use-listening.ts";

/** Listening to the record: one tap drops a detail at the moment it sounds, and the record runs on. */
export const ListenScreen = ({ song }: { readonly song: string }) => {
  const view = useSongView(song);
  const href = useHref();
  const { role } = useAuthor();
  useStand("song", song);
  if (view === null || role === "guest")
    return (
      <>
        <PageHeading title="Listen and spot" />
        <EmptyState
          title={view === null ? "This song is not on the board." : "You look at this board as a guest."}
          action={
            <TextLink standing href={href(view === null ? "/songs" : songLink(song))}>
              {view === null ? "All songs" : "Back to the song"}
            </TextLink>
          }
        >
          {view === null ? "It may have been taken out." : "Members drop details here while the record runs."}
        </EmptyState>
      </>
    );
  return <Listen key={song} file={view.file} />;
};

const Listen = ({ file }: { readonly file: SongFile }) => {
  const href = useHref();
  const laptop = useMediaQuery(LAPTOP);
  const act = useActTogether();
  const listening = useListening(file.song.id);
  const [latest, setLatest] = useState<string | null>(null);
  const [full, setFull] = useState(false);
  const chairs = useChairs().filter(({ id }) => castingOf(file, id).plays);
  const { spotted, startedAt, lead } = listening;
  const running = startedAt !== null;
  const drop = (index: number): void => {
    const chair = index === 0 ? null : (chairs[index - 1]?.id ?? undefined);
    if (!running || chair === undefined) return;
    const id = listening.drop({ chair });
    setFull(id === null);
    setLatest(id);
  };
  useDropKeys(drop);
  const worded = spotted.filter(({ text }) => text.trim() !== "");
  const put = (): void => {
    const steps = worded.map(({ chair, kind, text, clock }) =>
      step(addDetail, {
        song: file.song.id,
        text: text.trim(),
        kind,
        chairs: chair === null ? [] : [chair],
        where: placeOf(file, clock, lead),
        source: "as recorded",
      }),
    );
    const label = `${worded.length} ${worded.length === 1 ? "detail" : "details"} spotted in ${file.song.title}`;
    if (act(steps, label)) listening.takeAway(worded.map(({ id }) => id));
  };
  const nameOf = (chair: string | null): string =>
    chairs.find(({ id }) => id === chair)?.name ?? (chair === null ? "Nobody yet" : "A chair that is gone");
  const justNow = spotted.find(({ id }) => id === latest);
  const row = (each: Spotted) => (
    <SpottedRow
      key={each.id}
      file={file}
      spotted={each}
      listening={listening}
      chairName={nameOf(each.chair)}
      latest={each === justNow}
      takeFocus={laptop}
    />
  );
  return (
    <div className="max-w-5xl">
      <PageHeading
        title="Listen and spot"
        above={<TextLink href={href(songLink(file.song.id))}>{file.song.title}</TextLink>}
      />
      {running ? null : (
        <p className="mb-4 max-w-2xl text-quiet">
          Play the record on your own player and start the clock with it. Nothing is recorded or fetched. Keep
          it quiet enough to talk over.
        </p>
      )}
      <div className="grid gap-x-12 gap-y-6 laptop:grid-cols-2">
        <div className="min-w-0">
          <RunningClock file={file} listening={listening} />
          <section aria-label="Who does something now?" className="mt-4">
            <p className="caption mb-2">Who does something now?{laptop ? " Keys 1 to 9, and 0." : ""}</p>
            <div className="grid grid-cols-2 gap-2">
              {[{ id: null, name: "Nobody yet" }, ...chairs].map(({ id, name }, index) => (
                <Button
                  key={id ?? ""}
                  size="room"
                  className={index === 0 ? "order-last col-span-2" : "min-h-16"}
                  disabled={!running}
                  aria-keyshortcuts={index < 10 ? String(index) : undefined}
                  onClick={() => drop(index)}
                >
                  {name}
                </Button>
              ))}
            </div>
            {running ? null : <p className="caption mt-2">They wait for the clock.</p>}
            {/* Its words stand under the thumb, and join the others when the next one is dropped. */}
            {justNow === undefined ? null : <ul className="mt-2">{row(justNow)}</ul>}
            {full ? (
              <p role="alert" className="mt-2 text-slip">
                {SPOTTED_MAX} wait here already. Put some on the board first.
              </p>
            ) : null}
          </section>
        </div>
        <section aria-label="Spotted" className="min-w-0">
          <SectionHeading title="Spotted" aside="on this device until you put them on the board" />
          {spotted.length === 0 ? (
            <p className="text-quiet">Nothing yet. Rests are missed most: listen for who is not playing.</p>
          ) : (
            <>
              <div className="flex flex-wrap items-center gap-3 py-2">
                <Button tone="main" size="room" disabled={worded.length === 0} onClick={put}>
                  {worded.length === 0 ? "Put on the board" : `Put ${worded.length} on the board`}
                </Button>
                {worded.length < spotted.length ? (
                  <p className="caption">{spotted.length - worded.length} still without words</p>
                ) : null}
              </div>
              <ul>
                {[...spotted]
                  .reverse()
                  .filter((each) => each !== justNow)
                  .map(row)}
              </ul>
            </>
          )}
        </section>
      </div>
    </div>
  );
};
