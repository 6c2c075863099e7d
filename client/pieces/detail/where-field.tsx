import { Select } from "#client/ui/select.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { Section } from "#shared/board/song.ts";
import { formatWhere } from "#shared/board/where.ts";

export interface WhereFieldProps {
  readonly value: string;
  readonly onChange: (where: string) => void;
  readonly sections: readonly Section[];
  readonly error?: string | undefined;
}

const OTHER = "";
const WHOLE = "whole";

const help = (sections: readonly Section[]): string =>
  sections.length === 0
    ? "Empty = the whole song. This song has no form yet; a time such as 1:42 will do."
    : `Empty = the whole song. As you say it: “${sections[0]?.name} b1”, “${sections.at(-1)?.name} b1-4 beat 2”, “2nd time”, “1:42”.`;

/** A place in the song: typed as players say it, or picked from the form. */
export const WhereField = ({ value, onChange, sections, error }: WhereFieldProps) => {
  const names = sections.map((section) => formatWhere({ from: { section: section.id } }, sections));
  return (
    <div className="grid grid-cols-[1fr_auto] items-start gap-x-4">
      <TextField label="Where" value={value} onChange={onChange} hint={help(sections)} error={error} />
      <Select
        label="or pick"
        value={value === "" ? WHOLE : names.includes(value) ? value : OTHER}
        options={[
          { value: OTHER, label: "as typed", disabled: true },
          { value: WHOLE, label: "whole song" },
          ...names.map((name) => ({ value: name, label: name })),
        ]}
        onChange={(picked) => onChange(picked === WHOLE ? "" : picked)}
      />
    </div>
  );
};
