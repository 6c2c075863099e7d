import Download from "lucide-react/icons/download";
import { useMemo, useState } from "react";
import { fileName, saveFile } from "#client/pieces/save-file.ts";
import { useChairs, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { BARS_MOST, gridScore, USUAL_TEMPO } from "#shared/exchange/grid-score.ts";
import { writeMidi } from "#shared/exchange/grids-midi.ts";
import { writeMusicXml } from "#shared/exchange/grids-musicxml.ts";

/** Two files of the same grids, and what stands in them. */
export const ExportItself = ({ file }: { readonly file: SongFile }) => {
  const chairs = useChairs();
  const [{ today }] = useViewpoint();
  const [said, setSaid] = useState("");
  const score = useMemo(() => gridScore(file, chairs), [file, chairs]);
  if (score.blocks.length === 0) {
    return (
      <p className="pt-3">
        No detail of this song has a grid yet. Write one beside a detail, and it can be saved from here for a
        sequencer or a notation program.
      </p>
    );
  }
  const name = (ending: string): string => fileName(score.title, "grids", today, ending);
  const midi = () => {
    saveFile(name("mid"), writeMidi(score), "audio/midi");
    setSaid("The MIDI file is among your downloads.");
  };
  const musicXml = () => {
    const text = writeMusicXml(score, today);
    saveFile(name("musicxml"), text, "application/vnd.recordare.musicxml+xml");
    setSaid("The MusicXML file is among your downloads.");
  };
  return (
    <div className="pt-3">
      <div className="flex flex-wrap items-center gap-3">
        <Button icon={Download} onClick={midi}>
          Save grids as MIDI
        </Button>
        <Button icon={Download} onClick={musicXml}>
          Save grids as MusicXML
        </Button>
        <span role="status" className="caption">
          {said}
        </span>
      </div>
      <p className="caption mt-3">
        Holds: our own grids one after another, each for as many bars as its place lasts (at most {BARS_MOST}
        ), with metre, tempo and the place as a mark. Drums by their General MIDI keys; all other chairs on
        the key note, because a grid says when and not which note.
      </p>
      <p className="caption mt-1">Does not hold: lyrics, recordings, chord shapes, grids as recorded.</p>
      {file.song.tempo === null ? (
        <p className="caption mt-1">
          The song has no tempo yet: where none is settled, the file says {USUAL_TEMPO}.
        </p>
      ) : null}
    </div>
  );
};
