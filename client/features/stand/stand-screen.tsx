import { useGigFlags } from "#client/pieces/gig-flags.ts";
import { NoGig } from "#client/pieces/no-gig.tsx";
import { useAwake } from "#client/pieces/use-awake.ts";
import { useBoardId } from "#client/store/hooks.ts";
import { nextWords } from "#shared/selectors/stand.ts";
import { pauseWords, stepOnStand } from "#shared/selectors/stand-place.ts";
import { StandPaper } from "./stand-paper.tsx";
import { StandPause } from "./stand-pause.tsx";
import { StandSongLines } from "./stand-song.tsx";
import { type OpenStand, useOpenStand, useStandKeys } from "./use-stand.ts";

/** Keeps its place whether there is something to say or not. */
const TopLine = ({ frozen: { night, place }, change, there, act }: OpenStand) => {
  const words = "text-[18px] leading-[22px]";
  if (change !== "" && there)
    return (
      <div className="stand-top" role="status">
        <button
          type="button"
          onClick={() => act("take over")}
          className={`${words} flex size-full items-center gap-3 border-2 border-accent px-2 text-left text-accent`}
        >
          <span className="line-clamp-2 min-w-0 flex-1 short:line-clamp-1">{change}</span>
          <span className="font-semibold whitespace-nowrap underline underline-offset-4">Tap</span>
        </button>
      </div>
    );
  const at = night.songs[place.at] === undefined ? "" : `${place.at + 1} of ${night.songs.length}`;
  return (
    <div className="stand-top" role="status">
      <p className={change === "" ? `${words} text-quiet` : `${words} text-accent`}>{change || at}</p>
    </div>
  );
};

const after = ({ night: { songs }, place }: OpenStand["frozen"]): string => {
  const next = stepOnStand(songs, place, "next");
  if (next.at >= songs.length) return "then it is over";
  return next.paused ? pauseWords(songs, next.at) : nextWords(songs[next.at]);
};

const PRESS = "flex items-center justify-center gap-2 border border-control rounded-edge text-ink";

const Controls = (stand: OpenStand) => {
  const { frozen, flagged, inHand, act } = stand;
  const { paused, at } = frozen.place;
  const over = at >= frozen.night.songs.length;
  return (
    <div className="stand-controls text-[20px] leading-6">
      <button
        type="button"
        onClick={() => act("next")}
        disabled={over}
        className={`${PRESS} stand-next flex-col items-start! justify-start! border-ink items-start! gap-0! px-3 text-left disabled:border-dashed disabled:border-control`}
      >
        <span className="block w-full pt-2 text-[26px] leading-8 font-semibold short:pt-4">
          {paused && !over ? "Go on" : "Next"}
        </span>
        <span className="line-clamp-2 min-h-12 w-full text-quiet short:line-clamp-4 short:min-h-24">
          {after(frozen)}
        </span>
      </button>
      <button type="button" className={PRESS} onClick={() => act("back")}>
        Back
      </button>
      <button
        type="button"
        className={`${PRESS} stand-flag aria-pressed:border-accent aria-pressed:text-accent aria-pressed:[box-shadow:inset_0_0_0_1px_var(--color-accent)] disabled:border-dashed disabled:text-quiet`}
        aria-pressed={flagged}
        disabled={inHand === null}
        onClick={() => act("flag")}
      >
        {/* A new word rather than a changed one, which would be a move. */}
        <span key={String(flagged)}>{flagged ? "Flagged" : "Flag"}</span>
      </button>
      <button
        type="button"
        className={`${PRESS} disabled:border-dashed disabled:text-quiet`}
        disabled={paused}
        onClick={() => act("pause")}
      >
        Pause
      </button>
    </div>
  );
};

const Opened = ({ stand }: { readonly stand: OpenStand }) => {
  const { frozen, act } = stand;
  useStandKeys(act);
  const awake = useAwake("stage");
  const flags = useGigFlags(useBoardId(), frozen.night.gig).length;
  const song = frozen.place.paused ? undefined : frozen.night.songs[frozen.place.at];
  return (
    <main>
      <title>{`Stand · ${frozen.night.title} · Tightrow`}</title>
      <div className="stand px-page print:hidden">
        <TopLine {...stand} />
        {song === undefined ? (
          <StandPause frozen={frozen} flags={flags} awake={awake} onBeginAgain={stand.beginAgain} />
        ) : (
          <StandSongLines key={song.id} song={song} />
        )}
        <Controls {...stand} />
      </div>
      <StandPaper night={frozen.night} />
    </main>
  );
};

/**
 * On stage: one song at a time out of a night that was frozen when it was opened. Nothing moves unasked, nothing can be
 * changed, and no signal is needed.
 */
export const StandScreen = ({ gig }: { readonly gig: string }) => {
  const stand = useOpenStand(gig);
  if (stand !== null) return <Opened stand={stand} />;
  return (
    <main className="px-page">
      <NoGig title="Stand" />
    </main>
  );
};
