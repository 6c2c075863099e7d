import { useRef, useState } from "react";
import { TapTempo } from "#client/ui/tap-tempo.tsx";
import type { ClickTrack } from "#shared/music/click.ts";
import { readTaps, tapWords } from "#shared/music/tap-against-click.ts";
import { currentTaps, TAPS_NEEDED } from "#shared/music/tap-tempo.ts";
import type { OpenClick } from "./use-click.ts";

/** Taps that count: the last sixteen beats say how one plays now. */
const KEPT = 16;

/** A pad to tap along on: how far one's own tempo lies from the click's, and early or late. */
export const TapAlong = ({ click }: { readonly click: OpenClick }) => {
  // Beyond the state, because fast taps come before the next drawing.
  const taps = useRef<{ readonly track: ClickTrack | null; readonly times: readonly number[] }>({
    track: null,
    times: [],
  });
  const [words, setWords] = useState("–");
  const tap = (at: number): void => {
    const moment = click.player.moment(at);
    if (moment === null) {
      setWords("start the click");
      return;
    }
    const before = taps.current.track === moment.track ? taps.current.times : [];
    const times = currentTaps([...before, moment.time].map((time) => time * 1000)).map((ms) => ms / 1000);
    taps.current = { track: moment.track, times: times.slice(-KEPT) };
    const reading = readTaps(moment.track, taps.current.times);
    const left = TAPS_NEEDED - taps.current.times.length;
    setWords(reading !== null ? tapWords(reading) : left > 0 ? `${left} more` : "–");
  };
  return (
    <div data-keeps-focus>
      <TapTempo onTap={tap} reading={words} label="Tap along with the click" />
      <p className="caption mt-2">
        The percentage is your own. Early and late include your device's delay, which headphones without a
        wire can make a quarter of a second.
      </p>
    </div>
  );
};
