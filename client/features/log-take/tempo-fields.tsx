import { useState } from "react";
import { Choice } from "#client/ui/choice.tsx";
import { NumberField } from "#client/ui/number-field.tsx";
import { TapTempo } from "#client/ui/tap-tempo.tsx";
import { currentTaps, TAPS_NEEDED, tempoFromTaps } from "#shared/music/tap-tempo.ts";
import { TEMPO_MAX, TEMPO_MIN } from "#shared/music/tempo.ts";
import { offWords, tempoWords } from "#shared/selectors/take-tempo.ts";

export interface TempoFieldsProps {
  readonly start: number | null;
  readonly end: number | null;
  /** What the song is meant to have; null = not settled. */
  readonly target: number | null;
  readonly onChange: (tempo: {
    readonly tempoStart?: number | null;
    readonly tempoEnd?: number | null;
  }) => void;
}

type Moment = "start" | "end";

const reading = (taps: readonly number[], tempo: number | null): string => {
  if (tempo !== null) return String(tempo);
  const left = TAPS_NEEDED - taps.length;
  return taps.length === 0 || left <= 0 ? "–" : `${left} more`;
};

/** Taps to a tenth of a beat per minute: fine enough to tell a drift of one percent. */
const tenth = (tempo: number | null): number | null => (tempo === null ? null : Math.round(tempo * 10) / 10);

const offNow = (tempo: number | null, target: number | null): string =>
  tempo === null ? "" : offWords(tempo, target);

/** Tempo at the start and at the end, tapped along or typed, told as a distance from the target and as drift. */
export const TempoFields = ({ start, end, target, onChange }: TempoFieldsProps) => {
  const [moment, setMoment] = useState<Moment>(start === null ? "start" : "end");
  const [taps, setTaps] = useState<readonly number[]>([]);
  const set = (where: Moment, tempo: number | null) =>
    onChange(where === "start" ? { tempoStart: tempo } : { tempoEnd: tempo });
  const tap = (at: number) => {
    const next = currentTaps([...taps, at]);
    setTaps(next);
    const tempo = tenth(tempoFromTaps(next));
    if (tempo !== null) set(moment, tempo);
  };
  const words = tempoWords(start, end, target);
  return (
    <div className="flex flex-col gap-3 pb-4">
      <Choice
        label="Tap along"
        size="room"
        value={moment}
        options={[
          { value: "start", label: "at the start" },
          { value: "end", label: "at the end" },
        ]}
        onChange={(where) => {
          setMoment(where);
          setTaps([]);
        }}
      />
      <TapTempo
        onTap={tap}
        size="big"
        note={offNow(moment === "start" ? start : end, target)}
        reading={reading(taps, tenth(tempoFromTaps(taps)))}
        label={`Tap the beat, ${moment === "start" ? "as it began" : "as it ended"}`}
      />
      <div className="grid grid-cols-1 gap-x-6 gap-y-3 tablet:grid-cols-2">
        {(["start", "end"] as const).map((where) => (
          <NumberField
            key={where}
            label={`At the ${where}`}
            unit="bpm"
            min={TEMPO_MIN}
            max={TEMPO_MAX}
            fractions
            value={where === "start" ? start : end}
            onChange={(tempo) => set(where, tempo)}
          />
        ))}
      </div>
      <p aria-live="polite" className="text-quiet">
        {words === "" ? (target === null ? "The song has no tempo yet." : `Target ${target}.`) : `${words}.`}
      </p>
    </div>
  );
};
