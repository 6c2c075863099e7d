import { useId } from "react";
import { Choice } from "#client/ui/choice.tsx";
import { RISE_MOST } from "#shared/music/click.ts";
import { type ClickGround, perBeatChoices, RISE_EVERY } from "#shared/selectors/practice-click.ts";
import type { OpenClick } from "./use-click.ts";

const IN_A_BEAT: Readonly<Record<number, string>> = {
  1: "beats",
  2: "halves",
  3: "thirds",
  4: "quarters",
  6: "sixths",
};
const RISES = [0, 2, 3, RISE_MOST] as const;
const GRID = "grid";
const COUNT_INS = [0, 1, 2] as const;

const asked = <N extends number>(values: readonly N[], label: (value: N) => string) =>
  values.map((value) => ({ value: String(value), label: label(value) }));

/** What is set once, before the hands are full. */
export const ClickOptions = ({
  click,
  ground,
}: {
  readonly click: OpenClick;
  readonly ground: ClickGround;
}) => {
  const { choices, choose, volume, setVolume } = click;
  const { grid } = ground;
  const id = useId();
  return (
    <div className="flex flex-col gap-4 py-4">
      <Choice
        label="Bars counted in"
        size="room"
        value={String(choices.countIn)}
        options={asked(COUNT_INS, (bars) => (bars === 0 ? "none" : String(bars)))}
        onChange={(bars) => choose({ countIn: Number(bars) })}
      />
      <Choice
        label="Click on"
        size="room"
        value={choices.pattern === null ? String(choices.perBeat) : GRID}
        options={[
          ...asked(perBeatChoices(ground.metre), (steps) => IN_A_BEAT[steps] ?? String(steps)),
          ...(grid === null ? [] : [{ value: GRID, label: "my grid" }]),
        ]}
        onChange={(steps) =>
          choose(
            steps === GRID && grid !== null
              ? { perBeat: grid.perBeat, pattern: grid.hits }
              : { perBeat: Number(steps), pattern: null },
          )
        }
      />
      <Choice
        label={`Faster every ${RISE_EVERY} times round, up to ${ground.tempo}`}
        size="room"
        value={String(choices.rise)}
        options={asked(RISES, (percent) => (percent === 0 ? "no" : `${percent} %`))}
        onChange={(percent) => choose({ rise: Number(percent) })}
      />
      <div>
        <label htmlFor={id} className="caption block">
          Volume of the click
        </label>
        <input
          id={id}
          type="range"
          min={5}
          max={100}
          step={5}
          value={Math.round(volume * 100)}
          onChange={(event) => setVolume(Number(event.target.value) / 100)}
          className="min-h-14 w-full"
        />
        <p className="caption">
          It starts at half at most and swells over two bars. Keep it just above what you play. No sound at
          all? Some phones silence pages by their ring switch.
        </p>
      </div>
      <p className="caption">
        Space or a pedal that sends PageDown starts and stops, PageUp goes from the top, left and right change
        the tempo.
      </p>
    </div>
  );
};
