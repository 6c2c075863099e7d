import { useDeferredValue, useMemo, useState } from "react";
import { useLocation } from "wouter";
import { songLink } from "#client/pieces/links.ts";
import { useTellDone } from "#client/pieces/use-act.ts";
import { useBoardStore, useChairs } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Checkbox } from "#client/ui/checkbox.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { importSong } from "#shared/commands/import-song.ts";
import type { FoundSong } from "#shared/exchange/score/found-song.ts";
import { formWords, rangeWords, songWords, unkeptWords } from "#shared/exchange/score/found-words.ts";
import { importArgs, melodyOf, suggestDetails } from "#shared/exchange/score/import-choices.ts";
import { suggestChairs } from "#shared/exchange/score/part-facts.ts";
import type { SongFacts } from "#shared/exchange/score/song-facts.ts";
import { PartsFound } from "./parts-found.tsx";
import { SuggestedList } from "./suggested-list.tsx";

export interface FoundInFileProps {
  readonly found: FoundSong;
  /** Name of the file. */
  readonly file: string;
}

const WHAT = ["song", "form", "textures", "melody"] as const;
type What = (typeof WHAT)[number];

/** `paper-lantern.mid` → `paper lantern`, for a file that says no title. */
const titleFrom = (file: string): string =>
  file
    .replace(/\.[^.]*$/, "")
    .replace(/[_-]+/g, " ")
    .trim()
    .slice(0, 80);

/** What the board cannot hold: a section has one metre, one tempo and one key. */
const Unkept = ({ song }: { readonly song: SongFacts }) => {
  const lines = unkeptWords(song);
  if (lines.length === 0) return null;
  return (
    <div className="mb-3 ml-9">
      <p className="caption">
        A section has one metre, tempo and key. Not kept, unless you cut the section there afterwards:
      </p>
      <ul>
        {lines.map((line) => (
          <li key={line} className="caption">
            {line}
          </li>
        ))}
      </ul>
    </div>
  );
};

/** What a file says of a song: to be looked through, ticked, named and put on the board as one change. */
export const FoundInFile = ({ found, file }: FoundInFileProps) => {
  const store = useBoardStore();
  const chairs = useChairs();
  const tell = useTellDone();
  const [, go] = useLocation();
  const [title, setTitle] = useState(found.song.title || titleFrom(file));
  const [refused, setRefused] = useState("");
  const [assigned, setAssigned] = useState(() =>
    suggestChairs(
      found.parts.map(({ instrument }) => instrument),
      chairs,
    ),
  );
  const [taken, setTaken] = useState<ReadonlySet<What>>(new Set(WHAT));
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set());
  // A choice shows at once; what hangs on it may follow a moment later.
  const settled = useDeferredValue(assigned);
  const details = useMemo(() => suggestDetails(found, settled, chairs), [found, settled, chairs]);
  const melody = useMemo(() => melodyOf(found, settled, chairs), [found, settled, chairs]);
  const take = (what: What) => (ticked: boolean) =>
    setTaken(new Set(ticked ? [...taken, what] : [...taken].filter((other) => other !== what)));

  const bring = () => {
    const keys = suggestDetails(found, assigned, chairs).map(({ key }) => key);
    const args = importArgs(
      found,
      {
        title,
        stage: "learning",
        chairs: assigned,
        song: taken.has("song"),
        form: taken.has("form"),
        textures: taken.has("textures"),
        melody: taken.has("melody"),
        details: new Set(keys.filter((key) => !left.has(key))),
      },
      chairs,
    );
    const result = store.run(importSong, args, `Brought in: ${title.trim()}`);
    if (!result.ok) {
      setRefused(title.trim() === "" ? "Write the song's title first." : result.error.sentence);
      return;
    }
    tell(result.value);
    go(songLink(result.value.id));
  };

  const sung = melody !== null && "histogram" in melody ? melody.histogram.map(([pitch]) => pitch) : [];
  return (
    <div className="max-w-3xl">
      <SectionHeading
        title={`What is in “${file}”`}
        aside={`${found.facts.format} · ${found.facts.bars.length} bars`}
      />
      <Checkbox
        label="Tempo, key and metre"
        hint={songWords(found.song)}
        checked={taken.has("song")}
        onChange={take("song")}
      />
      <Checkbox
        label="Form"
        hint={formWords(found.song, taken.has("song"))}
        checked={taken.has("form")}
        onChange={take("form")}
      />
      {taken.has("form") && taken.has("song") ? <Unkept song={found.song} /> : null}
      <PartsFound
        found={found}
        assigned={assigned}
        settled={settled}
        onAssign={(part, chair) => setAssigned(assigned.map((other, i) => (i === part ? chair : other)))}
        textures={taken.has("textures")}
        onTextures={take("textures")}
        withForm={taken.has("form")}
      />
      {sung.length === 0 ? null : (
        <Checkbox
          label="What the lead voice sings"
          hint={`${rangeWords([sung[0] ?? 0, sung.at(-1) ?? 0], found.song.key)}, and for how long each note: that is what keys are compared by`}
          checked={taken.has("melody")}
          onChange={take("melody")}
        />
      )}
      <SuggestedList
        details={details}
        song={found.song}
        left={left}
        onTake={(key, ticked) =>
          setLeft(new Set(ticked ? [...left].filter((other) => other !== key) : [...left, key]))
        }
      />
      <SectionHeading title="Put it on the board" />
      <div className="flex flex-wrap items-start gap-3">
        <TextField
          label="Title of the song"
          value={title}
          onChange={(text) => {
            setTitle(text);
            setRefused("");
          }}
          error={refused || undefined}
          maxLength={200}
          className="min-w-60 flex-1"
        />
        <Button tone="main" onClick={bring} className="mt-5">
          Bring in this song
        </Button>
      </div>
      <p className="caption mt-2">One change: a single undo takes all of it back.</p>
    </div>
  );
};
