import Printer from "lucide-react/icons/printer";
import { AwakeChoice } from "#client/pieces/awake-button.tsx";
import { gigLink, loadInLink } from "#client/pieces/links.ts";
import type { Awake } from "#client/pieces/use-awake.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { Button } from "#client/ui/button.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { pauseWords } from "#shared/selectors/stand-place.ts";
import type { Frozen } from "./frozen-night.ts";
import { STAND_KEYS } from "./stand-keys.ts";

export interface StandPauseProps {
  readonly frozen: Frozen;
  readonly flags: number;
  readonly onBeginAgain: () => void;
  readonly awake: readonly [Awake, (wanted: boolean) => void];
}

/** Before, between and after the songs: what comes, and the few things there is time for. */
export const StandPause = ({
  frozen: { night, place },
  flags,
  onBeginAgain,
  awake: [awake, want],
}: StandPauseProps) => {
  const href = useHref();
  const { songs } = night;
  const next = songs[place.at];
  const blocks = new Set(songs.map(({ block }) => block)).size;
  const count = [
    `${songs.length} ${songs.length === 1 ? "song" : "songs"}`,
    blocks > 1 ? `${blocks} blocks` : "",
    flags === 0 ? "" : `${flags} flagged`,
  ];
  return (
    <div className="stand-lines">
      <div>
        <h1 tabIndex={-1} className="font-semibold outline-none">
          {songs.length === 0 ? "No song is called yet" : pauseWords(songs, place.at)}
        </h1>
        <p className="text-[20px] leading-7 text-quiet">
          {[night.title, night.player, ...count].filter((part) => part !== "").join(" · ")}
        </p>
      </div>
      {next === undefined ? null : (
        <p>
          Next: {next.title} · {next.lines.find(({ name }) => name === "key")?.text}
        </p>
      )}
      <div className="in-room flex flex-wrap items-center gap-x-4 gap-y-2">
        <AwakeChoice awake={awake} want={want} />
        <Button size="room" icon={Printer} onClick={() => window.print()}>
          Print
        </Button>
        {place.at === 0 ? null : (
          <Button size="room" onClick={onBeginAgain}>
            Begin again
          </Button>
        )}
        <TextLink standing href={href(loadInLink(night.gig))}>
          Load in
        </TextLink>
        <TextLink standing href={href(gigLink(night.gig))}>
          Leave the stand
        </TextLink>
      </div>
      <p className="text-[18px] leading-6 text-quiet">{STAND_KEYS}</p>
    </div>
  );
};
