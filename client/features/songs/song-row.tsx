import Trash2 from "lucide-react/icons/trash-2";
import { memo } from "react";
import { songLink } from "#client/pieces/links.ts";
import { useAct } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor, useSongSlice } from "#client/store/hooks.ts";
import { readyOf } from "#client/store/ready-of.ts";
import type { SongView } from "#client/store/song-view.ts";
import { IconButton } from "#client/ui/icon-button.tsx";
import { ListRow } from "#client/ui/list-row.tsx";
import { Select } from "#client/ui/select.tsx";
import { type Song, STAGES, type Stage } from "#shared/board/song.ts";
import { removeSong } from "#shared/commands/remove-record.ts";
import { reviseSong } from "#shared/commands/revise-song.ts";
import { songFacts } from "#shared/selectors/song-facts.ts";

const STAGE_OPTIONS = STAGES.map((value) => ({ value, label: value }));
const isReady = (view: SongView): boolean => readyOf(view).ready;

const ReadyWord = ({ song }: { readonly song: string }) => {
  const ready = useSongSlice(song, isReady);
  if (ready === null) return null;
  return ready ? <span className="font-semibold text-ink">ready</span> : <span>not ready</span>;
};

/** One song of the repertoire: opens its page, and its stage changes in place. */
export const SongRow = memo(({ song }: { readonly song: Song }) => {
  const act = useAct();
  const href = useHref();
  const looking = useAuthor().role === "guest";
  const toStage = (stage: Stage) =>
    act(reviseSong, { song: song.id, fields: { stage } }, `${song.title}: ${stage}`);
  const facts = songFacts(song);
  return (
    <ListRow
      href={href(songLink(song.id))}
      note={
        <span className="flex flex-wrap gap-x-2">
          {facts === "" ? <span className="expression">key, tempo and length are open</span> : facts}
          {song.stage === "resting" ? null : <ReadyWord song={song.id} />}
        </span>
      }
      trail={
        looking ? (
          <span className="caption">{song.stage}</span>
        ) : (
          <>
            <Select
              hideLabel
              label={`Stage of ${song.title}`}
              value={song.stage}
              options={STAGE_OPTIONS}
              onChange={toStage}
              className="w-32"
            />
            <IconButton
              icon={Trash2}
              label={`Take ${song.title} off the board`}
              onClick={() => act(removeSong, { id: song.id }, `Taken off the board: ${song.title}`)}
            />
          </>
        )
      }
    >
      {song.title}
    </ListRow>
  );
});
