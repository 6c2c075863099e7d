import { useAct } from "#client/pieces/use-act.ts";
import { FilterToggle } from "#client/ui/filter-toggle.tsx";
import { PINS, type Pin } from "#shared/board/rehearsal.ts";
import type { Song } from "#shared/board/song.ts";
import { pinSong } from "#shared/commands/plan-rehearsal.ts";

const WORDS: { readonly [P in Pin]: string } = { must: "must tonight", "not tonight": "not tonight" };

export interface PinButtonsProps {
  readonly day: string;
  readonly song: Pick<Song, "id" | "title">;
  readonly pin: Pin | undefined;
}

/** What the leader asks of one song for the evening, a tap each; a second tap takes it back. */
export const PinButtons = ({ day, song, pin }: PinButtonsProps) => {
  const act = useAct();
  return (
    <fieldset className="no-print -ml-3">
      <legend className="sr-only">{song.title}</legend>
      {PINS.map((one) => (
        <FilterToggle
          key={one}
          pressed={pin === one}
          onChange={(on) =>
            act(
              pinSong,
              { day, song: song.id, pin: on ? one : "" },
              `${song.title}: ${on ? WORDS[one] : "as it comes"}`,
              { quiet: true },
            )
          }
        >
          {WORDS[one]}
        </FilterToggle>
      ))}
    </fieldset>
  );
};
