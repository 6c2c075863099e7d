import { useId, useState } from "react";
import { useChairs } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Choice } from "#client/ui/choice.tsx";
import { FilterToggle } from "#client/ui/filter-toggle.tsx";
import type { Grid } from "#shared/board/grid.ts";
import {
  type GridPlan, type GridSource, pairOf, SWING_LEAST, SWING_MOST, SWINGS, type Swing,
} from "#shared/music/grid-playback.ts"; // biome-ignore format: by theme
import { type Metre, parseMetre } from "#shared/music/metre.ts";
import { heldTempo } from "#shared/selectors/practice-click.ts";
import { type OpenGridPlayer, useGridPlayer } from "./use-grid-player.ts";

export interface PlayGridProps {
  readonly grid: Grid | undefined;
  readonly recorded: Grid | undefined;
  /** As it is written. */
  readonly metre: string;
  /** Counted beats per minute; null = not settled. */
  readonly tempo: number | null;
}

const FOUR_FOUR: Metre = { groups: [4], unit: 4 };
const USUAL_TEMPO = 100;
const SHIFT = 5;

type Turn = GridSource | "alternately";
const TURNS: readonly { readonly value: Turn; readonly label: string }[] = [
  { value: "ours", label: "ours" },
  { value: "recorded", label: "the recording's" },
  { value: "alternately", label: "alternately" },
];

const HEARD: { readonly [H in NonNullable<OpenGridPlayer["heard"]>]: string } = {
  "count-in": "Counting in.",
  ours: "Playing ours.",
  recorded: "Playing the recording's.",
};
const TROUBLE = {
  interrupted: "Something else on this device took the sound. Start it again.",
  mute: "This browser gives pages no sound. Open Tightrow in another one.",
} as const;

interface Choices {
  readonly turn: Turn;
  readonly bpm: number;
  readonly swing: Swing;
  readonly click: boolean;
  readonly loop: boolean;
}

/** A detail's grids as sounds made on the device: each chair on one note of its own, because a grid holds no pitches. */
export const PlayGrid = ({ grid, recorded, metre: written, tempo }: PlayGridProps) => {
  const chairs = useChairs();
  const player = useGridPlayer();
  const read = parseMetre(written);
  const metre = read.ok ? read.value : FOUR_FOUR;
  const both = grid !== undefined && recorded !== undefined;
  const [choices, setChoices] = useState<Choices>({
    turn: grid === undefined ? "recorded" : "ours",
    bpm: tempo ?? USUAL_TEMPO,
    swing: { of: "eighths", percent: SWING_LEAST },
    click: true,
    loop: true,
  });

  const planOf = ({ turn, ...rest }: Choices): GridPlan => ({
    ...rest,
    metre,
    instruments: new Map(chairs.map(({ id, instrument }) => [id, instrument])),
    rounds: [
      ...(grid === undefined || turn === "recorded" ? [] : [{ source: "ours", grid } as const]),
      ...(recorded === undefined || turn === "ours" ? [] : [{ source: "recorded", grid: recorded } as const]),
    ],
  });
  const playing = player.state === "playing";
  const choose = (change: Partial<Choices>): void => {
    const next = { ...choices, ...change };
    setChoices(next);
    if (playing) player.change(planOf(next));
  };
  const heard = [grid, recorded].filter((one) => one !== undefined);
  const swings = heard.some(({ perBeat }) => pairOf(choices.swing.of, metre, perBeat) !== null);

  return (
    <section aria-label="Listen to the grid" className="flex flex-col gap-4 py-3">
      <div className="flex flex-wrap items-center gap-2">
        <Button tone="main" onClick={() => (playing ? player.stop() : player.start(planOf(choices)))}>
          {playing ? "Stop" : "Play"}
        </Button>
        <Button
          aria-label={`${SHIFT} bpm slower`}
          onClick={() => choose({ bpm: heldTempo(choices.bpm - SHIFT) })}
        >
          −{SHIFT}
        </Button>
        <span className="tabular-nums">
          {choices.bpm} bpm{tempo === null ? ", not settled for the song" : ""}
        </span>
        <Button
          aria-label={`${SHIFT} bpm faster`}
          onClick={() => choose({ bpm: heldTempo(choices.bpm + SHIFT) })}
        >
          +{SHIFT}
        </Button>
      </div>
      <p role="status" className="min-h-6">
        {player.state === "interrupted" || player.state === "mute"
          ? TROUBLE[player.state]
          : player.heard === null
            ? ""
            : HEARD[player.heard]}
      </p>
      {both ? (
        <Choice
          label="Which one"
          value={choices.turn}
          options={TURNS}
          onChange={(turn) => choose({ turn })}
        />
      ) : null}
      <fieldset className="flex flex-wrap border-b border-line">
        <legend className="sr-only">With it</legend>
        <FilterToggle pressed={choices.click} onChange={(click) => choose({ click })}>
          click
        </FilterToggle>
        <FilterToggle pressed={choices.loop} onChange={(loop) => choose({ loop })}>
          round and round
        </FilterToggle>
      </fieldset>
      <Choice
        label="Swing of"
        value={choices.swing.of}
        options={SWINGS.map((value) => ({ value, label: value }))}
        onChange={(of) => choose({ swing: { ...choices.swing, of } })}
      />
      <Slide
        label={`Swing: the first of two ${choices.swing.of} lasts ${choices.swing.percent} % of both${choices.swing.percent === SWING_LEAST ? ", straight" : ""}`}
        low={SWING_LEAST}
        high={SWING_MOST}
        step={1}
        value={choices.swing.percent}
        onChange={(percent) => choose({ swing: { ...choices.swing, percent } })}
        hint={swings ? "" : `These steps hold no pairs of ${choices.swing.of}: they stay straight.`}
      />
      <Slide
        label="Volume"
        low={5}
        high={100}
        step={5}
        value={Math.round(player.volume * 100)}
        onChange={(volume) => player.setVolume(volume / 100)}
        hint="It starts at half at most and swells over two bars. Keep it just above what you play, in headphones above all."
      />
    </section>
  );
};

interface SlideProps {
  readonly label: string;
  readonly low: number;
  readonly high: number;
  readonly step: number;
  readonly value: number;
  readonly onChange: (value: number) => void;
  readonly hint: string;
}

const Slide = ({ label, low, high, step, value, onChange, hint }: SlideProps) => {
  const id = useId();
  return (
    <div>
      <label htmlFor={id} className="caption block">
        {label}
      </label>
      <input
        id={id}
        type="range"
        min={low}
        max={high}
        step={step}
        value={value}
        onChange={(event) => onChange(Number(event.target.value))}
        className="min-h-12 w-full"
      />
      {hint === "" ? null : <p className="caption">{hint}</p>}
    </div>
  );
};
