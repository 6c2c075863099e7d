import Plus from "lucide-react/icons/plus";
import X from "lucide-react/icons/x";
import { useChairs } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Choice } from "#client/ui/choice.tsx";
import { IconButton } from "#client/ui/icon-button.tsx";
import { NumberField } from "#client/ui/number-field.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { CUE_MOST, type Entry, SWITCHES_MOST, type Switch } from "#shared/board/sides/entry.ts";
import type { Section } from "#shared/board/song.ts";

export interface EntryFieldProps {
  readonly entry: Entry;
  /** As the entry holds it. */
  readonly value: unknown;
  readonly onChange: (value: unknown) => void;
  /** The form, in playing order. */
  readonly sections: readonly Section[];
}

const NOT_SAID = "";
const unsaid = { value: NOT_SAID, label: "not said" };
const plain = (words: readonly string[]) => [unsaid, ...words.map((word) => ({ value: word, label: word }))];

/** Every value from the highest to the lowest, by its name. */
const namedValues = ({ low, high, step, say }: Extract<Entry, { of: "number" }>) =>
  Array.from({ length: (high - low) / step + 1 }, (_, i) => high - i * step).map((value) => ({
    value: String(value),
    label: say?.(value) ?? String(value),
  }));

const ChairField = ({ entry, value, onChange }: Pick<EntryFieldProps, "entry" | "value" | "onChange">) => {
  const chairs = useChairs();
  const gone = typeof value === "string" && !chairs.some(({ id }) => id === value);
  return (
    <Select
      label={entry.label}
      value={typeof value === "string" ? value : NOT_SAID}
      options={[
        unsaid,
        ...chairs.map(({ id, name }) => ({ value: id, label: name })),
        ...(gone ? [{ value, label: "a chair that is gone" }] : []),
      ]}
      onChange={(chosen) => onChange(chosen === NOT_SAID ? null : chosen)}
    />
  );
};

const SwitchFields = ({
  switches,
  onChange,
}: {
  readonly switches: readonly Switch[];
  readonly onChange: (switches: readonly Switch[]) => void;
}) => {
  const put = (at: number, change: Partial<Switch>) =>
    onChange(switches.map((one, i) => (i === at ? { ...one, ...change } : one)));
  return (
    <div className="flex flex-col gap-3">
      {switches.map(({ name, on }, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a field keeps its place while its name is typed
        <div key={i} className="grid grid-cols-[minmax(0,1fr)_auto_auto] items-end gap-3">
          <TextField
            label={`Effect ${i + 1}`}
            value={name}
            onChange={(text) => put(i, { name: text })}
            autoCapitalize="off"
          />
          <Choice
            label={`Effect ${i + 1} is`}
            hideLabel
            value={on ? "on" : "off"}
            options={[
              { value: "on", label: "on" },
              { value: "off", label: "off" },
            ]}
            onChange={(chosen) => put(i, { on: chosen === "on" })}
          />
          <IconButton
            icon={X}
            label={`Take effect ${i + 1} off`}
            onClick={() => onChange(switches.filter((_, other) => other !== i))}
          />
        </div>
      ))}
      {switches.length < SWITCHES_MOST ? (
        <div>
          <Button onClick={() => onChange([...switches, { name: "", on: true }])}>
            <Plus aria-hidden="true" size={18} strokeWidth={1.75} /> Add an effect
          </Button>
        </div>
      ) : null}
    </div>
  );
};

/** One entry of a side, whatever its kind. */
export const EntryField = ({ entry, value, onChange, sections }: EntryFieldProps) => {
  switch (entry.of) {
    case "number":
      return entry.say === undefined ? (
        <NumberField
          label={entry.label}
          value={typeof value === "number" ? value : null}
          min={entry.low}
          max={entry.high}
          step={1}
          fractions={entry.step !== 1}
          onChange={onChange}
        />
      ) : (
        <Select
          label={entry.label}
          value={typeof value === "number" ? String(value) : NOT_SAID}
          options={[unsaid, ...namedValues(entry)]}
          onChange={(chosen) => onChange(chosen === NOT_SAID ? null : Number(chosen))}
        />
      );
    case "word":
      return (
        <Select
          label={entry.label}
          value={typeof value === "string" ? value : NOT_SAID}
          options={plain(entry.words)}
          onChange={(chosen) => onChange(chosen === NOT_SAID ? null : chosen)}
        />
      );
    case "cue":
      return (
        <TextField
          label={entry.label}
          value={typeof value === "string" ? value : ""}
          onChange={onChange}
          autoCapitalize="off"
          hint={`One word, at most ${CUE_MOST} characters.`}
        />
      );
    case "chair":
      return <ChairField entry={entry} value={value} onChange={onChange} />;
    case "switches":
      return <SwitchFields switches={Array.isArray(value) ? value : []} onChange={onChange} />;
    case "sections": {
      const plan: Readonly<Record<string, string>> = Object(value);
      if (sections.length === 0)
        return <p>Write the form of the song first: this is said section by section.</p>;
      return sections.map(({ id, name }) => (
        <Select
          key={id}
          label={name}
          value={plan[id] ?? NOT_SAID}
          options={plain(entry.words)}
          onChange={(chosen) => {
            const { [id]: _, ...others } = plan;
            onChange(chosen === NOT_SAID ? others : { ...others, [id]: chosen });
          }}
        />
      ));
    }
  }
};
