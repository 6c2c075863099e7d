import { useDeferredValue, useMemo, useRef, useState } from "react";
import { PickFile } from "#client/pieces/pick-file.tsx";
import { useAct } from "#client/pieces/use-act.ts";
import { useDraft } from "#client/pieces/use-draft.ts";
import { useBoardId, useSongs } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextArea } from "#client/ui/text-field.tsx";
import { STAGES, type Stage } from "#shared/board/song.ts";
import { addSongs } from "#shared/commands/add-songs.ts";
import { lineRange, previewLines, songsToAdd, unreadLines } from "#shared/exchange/list-preview.ts";
import { readSongList } from "#shared/exchange/song-list.ts";
import { PastePreview } from "./paste-preview.tsx";

export interface PasteSongsProps {
  /** Called after a list went in. */
  readonly onAdded?: (count: number) => void;
}

const songsWord = (count: number): string => (count === 1 ? "1 song" : `${count} songs`);
const linesWord = (count: number): string => (count === 1 ? "1 line" : `${count} lines`);

/** Reads the list as it is written, against the titles the band has. */
const useList = (text: string) => {
  const songs = useSongs();
  const shown = useDeferredValue(text);
  const titles = useMemo(() => [...songs.values()].map(({ song }) => song.title), [songs]);
  return useMemo(() => (shown.trim() === "" ? null : readSongList(shown, titles)), [shown, titles]);
};

/** What the list comes to, in one line. */
const summary = (adding: number, skipped: number, open: number): string =>
  [
    `${songsWord(adding)} to add`,
    skipped > 0
      ? `${songsWord(skipped)} left out, because ${skipped === 1 ? "it comes" : "they come"} twice`
      : "",
    open > 0 ? `${linesWord(open)} to look at` : "",
  ]
    .filter((part) => part !== "")
    .join(" · ");

/** Adds a whole list at once. The text stays until its songs are in; lines that could not be read stay after that. */
export const PasteSongs = ({ onAdded }: PasteSongsProps) => {
  const act = useAct();
  const area = useRef<HTMLTextAreaElement>(null);
  const [text, setText] = useDraft(`songs.${useBoardId()}`);
  const [stage, setStage] = useState<Stage>("learning");
  const [kept, setKept] = useState<ReadonlySet<number>>(new Set());
  const list = useList(text);
  const lines = list === null ? [] : previewLines(list);
  const adding = list === null ? [] : songsToAdd(list, kept);
  const open = lines.filter(({ problems }) => problems.some(({ kind }) => kind !== "duplicate")).length;

  const change = (next: string) => {
    setText(next);
    // A choice belongs to a line as it was written.
    setKept(new Set());
  };
  const add = () => {
    if (list === null) return;
    const songs = adding.map(({ title, key, tempo, length, further }) => ({
      ...{ title, key, tempo, length },
      ...further,
      form: [...(further?.form ?? [])],
    }));
    if (!act(addSongs, { stage, songs }, `Added ${songsWord(songs.length)}`)) return;
    change(unreadLines(text, list));
    onAdded?.(songs.length);
  };
  const goTo = (line: number) => {
    area.current?.focus();
    area.current?.setSelectionRange(...lineRange(text, line));
  };

  return (
    <div>
      <TextArea
        ref={area}
        label="Paste a list"
        hint="One title per line, or a table with title, key, tempo, length and whatever a saved repertoire has. Titles and facts only, no lyrics."
        value={text}
        onChange={change}
        spellCheck={false}
        className="[&_textarea]:max-h-[50dvh]"
      />
      <PickFile
        label="Or take it from a file"
        accept=".csv,.tsv,.txt,text/csv,text/plain"
        onText={(read) => change(text.trim() === "" ? read : `${text.trimEnd()}\n${read}`)}
      />
      {list === null ? null : (
        <>
          <p role="status" className="mt-4 font-semibold">
            {summary(adding.length, list.songs.length - adding.length, open)}
          </p>
          <div className="mt-2 flex flex-wrap items-end gap-4">
            <Select
              label="Stage they start in"
              value={stage}
              options={STAGES.map((value) => ({ value, label: value }))}
              onChange={setStage}
              className="w-40"
            />
            <Button tone="main" disabled={adding.length === 0} onClick={add}>
              Add {songsWord(adding.length)}
            </Button>
          </div>
          {open > 0 && adding.length > 0 ? (
            <p className="caption mt-2">
              What could be read is added; lines without a song stay here to be mended.
            </p>
          ) : null}
          <PastePreview
            lines={lines}
            kept={kept}
            onGoTo={goTo}
            onKeep={(line, keep) =>
              setKept((now) => new Set(keep ? [...now, line] : [...now].filter((other) => other !== line)))
            }
          />
        </>
      )}
    </div>
  );
};
