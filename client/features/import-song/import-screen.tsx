import { useState } from "react";
import { songsLink } from "#client/pieces/links.ts";
import { PickAnyFile } from "#client/pieces/pick-file.tsx";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor } from "#client/store/hooks.ts";
import { ErrorNote } from "#client/ui/error-note.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { SCORE_FILES } from "#shared/exchange/score/read-score.ts";
import { FoundInFile } from "./found-in-file.tsx";
import { useScore } from "./use-score.ts";

const Choose = () => {
  const [times, setTimes] = useState(0);
  const { read, choose } = useScore(() => setTimes((n) => n + 1));
  return (
    <>
      <p className="max-w-3xl">
        From a MIDI or MusicXML file: the form with its metres, tempos and keys, who plays when, and the bars
        that drums and bass come back to. You see everything before it goes on the board.
      </p>
      <p className="caption mt-1 max-w-3xl">
        The file stays on this device and is not kept. Lyrics and the notes themselves are not taken.
      </p>
      <PickAnyFile
        label="Choose a file: .mid, .musicxml, .xml or .mxl, at most 8 MB"
        accept={SCORE_FILES}
        instead="Choose a MIDI or MusicXML file on this device."
        onFile={choose}
      />
      <p role="status" className="min-h-6">
        {read === null ? null : read.result === null ? `Reading “${read.name}”…` : null}
        {read?.result?.ok
          ? `${read.result.value.facts.bars.length} bars were read from “${read.name}”.`
          : null}
      </p>
      {read?.result?.ok === false ? (
        <ErrorNote title={`“${read.name}” was not brought in.`}>
          <p>{read.result.error}</p>
          <p>Nothing on the board was changed.</p>
        </ErrorNote>
      ) : null}
      {read?.result?.ok ? <FoundInFile key={times} found={read.result.value} file={read.name} /> : null}
    </>
  );
};

/** Brings in a song from a file in an open format. */
export const ImportScreen = () => {
  const looking = useAuthor().role === "guest";
  const href = useHref();
  return (
    <div className="max-w-5xl">
      <PageHeading title="Bring in a song" above={<TextLink href={href(songsLink())}>Songs</TextLink>} />
      {looking ? <p>You are looking on. Members of the band can bring in songs.</p> : <Choose />}
    </div>
  );
};
