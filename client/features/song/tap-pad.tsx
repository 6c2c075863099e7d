import { useRef, useState } from "react";
import { TapTempo } from "#client/ui/tap-tempo.tsx";
import { currentTaps, TAPS_NEEDED, tempoFromTaps } from "#shared/music/tap-tempo.ts";

const reading = (taps: readonly number[], tempo: number | null): string => {
  if (tempo !== null) return String(Math.round(tempo));
  const left = TAPS_NEEDED - taps.length;
  return taps.length === 0 || left <= 0 ? "–" : `${left} more`;
};

/** Finds a tempo by tapping; hands it over in whole beats per minute at each tap once it is believed. */
export const TapPad = ({ onTempo }: { readonly onTempo: (tempo: number) => void }) => {
  // Beyond the state, because fast taps come before the next drawing.
  const latest = useRef<readonly number[]>([]);
  const [taps, setTaps] = useState<readonly number[]>([]);
  const tap = (at: number) => {
    latest.current = currentTaps([...latest.current, at]);
    setTaps(latest.current);
    const tempo = tempoFromTaps(latest.current);
    if (tempo !== null) onTempo(Math.round(tempo));
  };
  return <TapTempo onTap={tap} reading={reading(taps, tempoFromTaps(taps))} />;
};
