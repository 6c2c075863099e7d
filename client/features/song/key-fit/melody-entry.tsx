import { useState } from "react";
import { Button } from "#client/ui/button.tsx";
import type { Song } from "#shared/board/song.ts";
import { melodyWords } from "#shared/selectors/melody-draft.ts";
import { MelodyForm } from "./melody-form.tsx";

/** What the melody asks of a voice, and the form for it. */
export const MelodyEntry = ({ song, may }: { readonly song: Song; readonly may: boolean }) => {
  const [editing, setEditing] = useState(false);
  if (editing) return <MelodyForm song={song} onDone={() => setEditing(false)} />;
  return (
    <div>
      <p>
        {song.melody === null
          ? "What the melody asks for is not written down yet."
          : `The melody goes ${melodyWords(song.melody)}${"histogram" in song.melody ? ", by the time each note is sung" : ""}.`}
      </p>
      {may ? (
        <Button tone="quiet" className="no-print" onClick={() => setEditing(true)}>
          {song.melody === null ? "Write down the melody's notes" : "Change the melody's notes"}
        </Button>
      ) : null}
    </div>
  );
};
