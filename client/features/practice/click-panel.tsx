import type { ReactNode } from "react";
import { Accordion } from "#client/ui/accordion.tsx";
import { Button } from "#client/ui/button.tsx";
import { FilterToggle } from "#client/ui/filter-toggle.tsx";
import { type ClickGround, heldTempo } from "#shared/selectors/practice-click.ts";
import { BeatBar } from "./beat-bar.tsx";
import { ClickOptions } from "./click-options.tsx";
import { TapAlong } from "./tap-along.tsx";
import type { OpenClick } from "./use-click.ts";
import { SHIFT, useKeys } from "./use-keys.ts";

export interface ClickPanelProps {
  readonly ground: ClickGround;
  readonly click: OpenClick;
  /** Between what is pressed while it runs and what is set before. */
  readonly children: ReactNode;
}

/** Slow first: shares of the song's tempo to begin at. */
const SHARES = [0.7, 0.85, 1] as const;

const TROUBLE = {
  interrupted: "Something else on this device took the sound. Start the click again.",
  mute: "This browser gives pages no sound. Open Tightrow in another one.",
} as const;

/** The click: one press starts and stops it; the rest changes it while it runs. */
export const ClickPanel = ({ ground, click, children }: ClickPanelProps) => {
  const { choices, choose, shift, state, toggle, again } = click;
  useKeys({ toggle, again, shift });
  const playing = state === "playing";
  const { stretch } = ground;
  return (
    <section aria-label="Click" data-hands-free className="mt-6">
      <BeatBar click={click} ground={ground} />
      <div className="grid grid-cols-[1fr_2fr_1fr] gap-2">
        <Button
          size="room"
          className="min-h-20 text-title"
          aria-label="2 bpm slower"
          onClick={() => shift(-SHIFT)}
        >
          −{SHIFT}
        </Button>
        <button
          type="button"
          aria-keyshortcuts="Space PageDown"
          onClick={toggle}
          className="min-h-20 rounded-edge border border-ink bg-ink px-4 text-display text-ground forced-color-adjust-none hover:border-quiet hover:bg-quiet"
        >
          {playing ? "Stop" : "Start"}
        </button>
        <Button
          size="room"
          className="min-h-20 text-title"
          aria-label="2 bpm faster"
          onClick={() => shift(SHIFT)}
        >
          +{SHIFT}
        </Button>
      </div>
      <p role="status" className="text-accent">
        {state === "interrupted" || state === "mute" ? TROUBLE[state] : ""}
      </p>
      <fieldset className="mt-2 flex flex-wrap border-b border-line">
        <legend className="sr-only">Changes while it runs</legend>
        {SHARES.map((share) => {
          const bpm = heldTempo(Math.round(ground.tempo * share));
          return (
            <FilterToggle key={share} pressed={choices.bpm === bpm} onChange={() => choose({ bpm })}>
              {share === 1 ? `full, ${bpm}` : `${share * 100} %`}
            </FilterToggle>
          );
        })}
        {stretch === null ? null : (
          <FilterToggle pressed={choices.loop} onChange={(loop) => choose({ loop })}>
            loop {stretch.name}
          </FilterToggle>
        )}
        <FilterToggle pressed={choices.mute} onChange={(mute) => choose({ mute })}>
          one bar in four silent
        </FilterToggle>
        {playing ? (
          <Button tone="quiet" size="room" className="px-3" onClick={again}>
            from the top
          </Button>
        ) : null}
      </fieldset>
      {ground.guessed === null ? null : <p className="mt-2 text-quiet">{ground.guessed}</p>}
      {children}
      <Accordion size="room" summary="Count-in, subdivision, tempo steps, volume, keys">
        <ClickOptions click={click} ground={ground} />
      </Accordion>
      <Accordion size="room" summary="Tap along: how steady am I?">
        <div className="py-4">
          <TapAlong click={click} />
        </div>
      </Accordion>
    </section>
  );
};
