import X from "lucide-react/icons/x";
import { useId, useState } from "react";
import { Button } from "#client/ui/button.tsx";
import { IconButton } from "#client/ui/icon-button.tsx";
import { NumberField } from "#client/ui/number-field.tsx";
import { Select } from "#client/ui/select.tsx";
import { PRESENCES, type Presence, type TextureChanges } from "#shared/board/texture.ts";
import { withChange, withoutChange } from "#shared/music/texture-changes.ts";
import { capital } from "#shared/readiness/names.ts";
import { changeWords, playedWords, timeWords } from "#shared/selectors/texture-words.ts";

export interface CellEntriesProps {
  readonly title: string;
  readonly bars: number;
  readonly passes: number;
  readonly changes: TextureChanges;
  readonly onChange: (changes: TextureChanges) => void;
}

const EVERY = "every";

/** Where a part comes in or goes out inside a section: from a bar on, every time or one time only. */
export const CellEntries = ({ title, bars, passes, changes, onChange }: CellEntriesProps) => {
  const heading = useId();
  const [bar, setBar] = useState<number | null>(Math.min(bars, Math.floor(bars / 2) + 1));
  const [time, setTime] = useState(EVERY);
  const [presence, setPresence] = useState<Presence>("play");
  return (
    <section aria-labelledby={heading} className="mt-3 border-l-2 border-control pl-3">
      <h3 id={heading} className="font-semibold">
        {title}
      </h3>
      <p>{capital(playedWords(changes, bars) || "nothing is said yet")}.</p>
      {changes.length < 2 ? null : (
        <ul>
          {changes.map((change) => (
            <li
              key={`${change.pass}/${change.bar}`}
              className="flex min-h-12 items-center justify-between border-b border-line"
            >
              {capital(changeWords(change))}
              <IconButton
                icon={X}
                label={`Take out: ${changeWords(change)}`}
                onClick={() => onChange(withoutChange(changes, change))}
              />
            </li>
          ))}
        </ul>
      )}
      <div className="mt-2 flex flex-wrap items-end gap-3">
        <NumberField label="From bar" value={bar} onChange={setBar} min={1} max={bars} className="w-40" />
        {passes < 2 ? null : (
          <Select
            label="When"
            value={time}
            onChange={setTime}
            options={[
              { value: EVERY, label: "every time" },
              ...Array.from({ length: passes }, (_, i) => ({
                value: String(i + 1),
                label: `${timeWords(i + 1)} only`,
              })),
            ]}
          />
        )}
        <Select
          label="Plays"
          value={presence}
          onChange={setPresence}
          options={PRESENCES.map((value) => ({ value, label: value }))}
        />
        <Button
          disabled={bar === null}
          onClick={() =>
            bar !== null &&
            onChange(withChange(changes, { bar, pass: time === EVERY ? null : Number(time), presence }))
          }
        >
          Add this entry
        </Button>
      </div>
    </section>
  );
};
