import X from "lucide-react/icons/x";
import { useEffect, useRef } from "react";
import { FilterToggle } from "#client/ui/filter-toggle.tsx";
import { IconButton } from "#client/ui/icon-button.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { formatWhere } from "#shared/board/where.ts";
import { clockWords, placeOf, QUICK_WORDS, type Spotted } from "#shared/selectors/spotting.ts";
import type { OpenListening } from "./use-listening.ts";

export interface SpottedRowProps {
  readonly file: SongFile;
  readonly spotted: Spotted;
  readonly listening: OpenListening;
  readonly chairName: string;
  /** It was dropped just now: its words are asked for. */
  readonly latest: boolean;
  /** Words are typed at once: there is a keyboard that covers nothing. */
  readonly takeFocus: boolean;
}

/** One thing that was heard: where, whose, and its words by a tap or typed. */
export const SpottedRow = ({ file, spotted, listening, chairName, latest, takeFocus }: SpottedRowProps) => {
  const { id, clock, text, kind } = spotted;
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (latest && takeFocus) field.current?.focus();
  }, [latest, takeFocus]);
  const { clock: _, ...place } = placeOf(file, clock, listening.lead);
  const where = place.from === undefined ? clockWords(clock) : formatWhere(place, file.sections);
  const name = `${chairName}, ${where}`;
  return (
    <li data-spotted={id} className="border-b border-line py-2">
      <div className="flex items-center justify-between gap-3">
        <p>
          <span className="font-semibold">{chairName}</span> <span className="text-quiet">{where}</span>
        </p>
        <IconButton icon={X} label={`Take away: ${name}`} onClick={() => listening.takeAway([id])} />
      </div>
      {latest || text === "" ? (
        <fieldset className="flex flex-wrap">
          <legend className="sr-only">What happens, {name}</legend>
          {QUICK_WORDS.map((quick) => (
            <FilterToggle
              key={quick.text}
              pressed={text === quick.text && kind === quick.kind}
              onChange={() => listening.revise(id, quick)}
            >
              {quick.text}
            </FilterToggle>
          ))}
        </fieldset>
      ) : null}
      <TextField
        ref={field}
        label={`In your words, ${name}`}
        hideLabel
        placeholder="In your words"
        value={text}
        maxLength={4000}
        onChange={(words) => listening.revise(id, { text: words })}
        onKeyDown={(event) => {
          // Back to the keys that drop: one keeps listening.
          if (event.key === "Enter" || event.key === "Escape") event.currentTarget.blur();
        }}
      />
    </li>
  );
};
