import Download from "lucide-react/icons/download";
import { useDeferredValue, useState } from "react";
import { importLink } from "#client/pieces/links.ts";
import { RemovedList } from "#client/pieces/removed-list.tsx";
import { fileName, saveFile } from "#client/pieces/save-file.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor, useBand, useReadSongView, useSongs, useViewpoint } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Button } from "#client/ui/button.tsx";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { PageHeading, SectionHeading } from "#client/ui/page-heading.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { STAGES } from "#shared/board/song.ts";
import { restoreSong } from "#shared/commands/remove-record.ts";
import { writeRepertoire } from "#shared/exchange/repertoire-csv.ts";
import { pointsOf } from "#shared/selectors/points.ts";
import { repertoire, type StageFilter, stageCounts } from "#shared/selectors/repertoire.ts";
import { AddSongLine } from "./add-song-line.tsx";
import { PasteSongs } from "./paste-songs.tsx";
import { SongRow } from "./song-row.tsx";
import { useSteadySongs } from "./use-steady-songs.ts";

type Songs = ReadonlyMap<string, SongFile>;

const filterOptions = (songs: Songs) => {
  const counts = stageCounts(songs.values());
  const resting = counts.get("resting") ?? 0;
  return [
    { value: "current" as const, label: `all but resting (${songs.size - resting})` },
    ...STAGES.map((stage) => ({ value: stage, label: `${stage} (${counts.get(stage) ?? 0})` })),
    { value: "all" as const, label: `all (${songs.size})` },
  ];
};

const Export = ({ songs }: { readonly songs: Songs }) => {
  const { name } = useBand();
  const [{ today, gig }] = useViewpoint();
  const viewOf = useReadSongView();
  const save = () => {
    const listed = repertoire(songs.values(), { search: "", stage: "all" }).flatMap((group) => group.songs);
    const lines = listed.flatMap(({ id }) => {
      const view = viewOf(id);
      return view === null ? [] : [{ file: view.file, ready: pointsOf(view.night.score) }];
    });
    const table = writeRepertoire(lines, gig?.date ?? today);
    saveFile(fileName(name, "repertoire", today, "csv"), table, "text/csv");
  };
  return (
    <Button tone="quiet" icon={Download} onClick={save}>
      Save as CSV
    </Button>
  );
};

const NoSongs = ({ looking }: { readonly looking: boolean }) => (
  <EmptyState title="No songs yet">
    {looking
      ? "The band's repertoire will stand here."
      : "Add the first one by its title, or paste the list you have: from a message, a note or a spreadsheet."}
  </EmptyState>
);

const Repertoire = ({ songs, own }: { readonly songs: Songs; readonly own: number }) => {
  const [search, setSearch] = useState("");
  const [stage, setStage] = useState<StageFilter>("current");
  const query = { search: useDeferredValue(search), stage };
  const { groups, moved, settle } = useSteadySongs(songs, query, own);
  return (
    <>
      <div className="mt-6 flex flex-wrap items-end gap-x-6 gap-y-3">
        <TextField
          label="Search"
          type="search"
          value={search}
          onChange={setSearch}
          placeholder="title, style or key"
          className="min-w-48 flex-1"
        />
        <Select
          label="Show"
          value={stage}
          options={filterOptions(songs)}
          onChange={setStage}
          className="min-w-48"
        />
      </div>
      <p role="status" className="caption mt-2 -mb-4 min-h-9">
        {moved === 0 ? null : (
          <>
            {moved === 1 ? "1 song belongs" : `${moved} songs belong`} elsewhere by now.{" "}
            <Button tone="quiet" onClick={settle}>
              Sort again
            </Button>
          </>
        )}
      </p>
      {groups.length === 0 ? (
        <p className="py-6 text-quiet">No song matches. Search for less, or show another stage.</p>
      ) : null}
      {groups.map((group) => (
        <section key={group.stage} aria-label={group.stage}>
          <SectionHeading title={group.stage} aside={group.songs.length} />
          <ul>
            {group.songs.map((song) => (
              <SongRow key={song.id} song={song} />
            ))}
          </ul>
        </section>
      ))}
    </>
  );
};

/** The repertoire: every song with its stage, what is settled about it and whether it is ready. */
export const SongsScreen = () => {
  const songs = useSongs();
  const looking = useAuthor().role === "guest";
  const href = useHref();
  const [own, setOwn] = useState(0);
  const added = () => setOwn((n) => n + 1);
  return (
    <div className="max-w-5xl">
      <PageHeading title="Songs" aside={songs.size > 0 ? <Export songs={songs} /> : null} />
      {songs.size === 0 ? <NoSongs looking={looking} /> : null}
      {looking ? null : (
        <div className="max-w-3xl">
          <AddSongLine onAdded={added} />
          <TextLink standing href={href(importLink())}>
            Bring in a song from a MIDI or MusicXML file
          </TextLink>
          <Accordion
            summary="Paste a list, or read one from a file"
            startOpen={songs.size === 0}
            className="mt-3"
          >
            <div className="pt-2 pb-6">
              <PasteSongs onAdded={added} />
            </div>
          </Accordion>
        </div>
      )}
      {songs.size > 0 ? (
        <>
          <Repertoire songs={songs} own={own} />
          <p className="caption mt-8">
            The CSV holds: what is settled of every song, its form, and how ready it is on the night; pasted
            or read from a file here, it comes back. It does not hold: details, marks and takes; those are in
            the whole board, saved in the settings.
          </p>
        </>
      ) : null}
      {looking ? null : (
        <RemovedList
          of="songs"
          restore={restoreSong}
          title={(count) =>
            count === 1 ? "1 song was taken off the board" : `${count} songs were taken off the board`
          }
        />
      )}
    </div>
  );
};
