import { useState } from "react";
import { RulingForm } from "#client/pieces/ruling/ruling-form.tsx";
import { RulingHistory } from "#client/pieces/ruling/ruling-history.tsx";
import { useAuthor } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import type { SongFile } from "#shared/board/board.ts";

/** What was decided about this song, latest first: before → after, from where, by whom, when, why. */
export const RulingList = ({ file }: { readonly file: SongFile }) => {
  const { role } = useAuthor();
  const [ruling, setRuling] = useState(false);
  return (
    <>
      {file.rulings.length === 0 ? (
        <p className="caption py-2">
          Nothing yet. When you change the version, key, tempo, count-in, ending or tuning, you can write it
          down as a ruling with its reason.
        </p>
      ) : (
        <RulingHistory rulings={file.rulings} file={file} label="Rulings" />
      )}
      {role === "guest" ? null : ruling ? (
        <RulingForm song={file.song.id} card={null} on="the form" onDone={() => setRuling(false)} />
      ) : (
        <Button className="no-print" onClick={() => setRuling(true)}>
          Rule on the form
        </Button>
      )}
    </>
  );
};
