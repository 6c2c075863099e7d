import { useChairs } from "#client/store/hooks.ts";
import { Checkbox } from "#client/ui/checkbox.tsx";
import { Choice } from "#client/ui/choice.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { CARD_KINDS, RULING_SOURCES, WEIGHTS } from "#shared/board/card.ts";
import type { Section } from "#shared/board/song.ts";
import type { DetailDraft, DraftFault } from "#shared/selectors/detail-draft.ts";
import { WhereField } from "./where-field.tsx";

export interface DetailFieldsProps {
  readonly draft: DetailDraft;
  readonly onChange: (draft: DetailDraft) => void;
  readonly sections: readonly Section[];
  readonly fault: DraftFault | null;
}

const options = <T extends string>(values: readonly T[]) => values.map((value) => ({ value, label: value }));
const KINDS = CARD_KINDS.map((kind) => ({
  value: kind,
  label: kind === "general" ? "not sorted yet" : kind,
}));
const ALWAYS = "";

const ChairBoxes = ({ draft, onChange }: Pick<DetailFieldsProps, "draft" | "onChange">) => {
  const chairs = useChairs();
  const toggle = (chair: string, on: boolean) =>
    onChange({
      ...draft,
      chairs: chairs.map(({ id }) => id).filter((id) => (id === chair ? on : draft.chairs.includes(id))),
    });
  return (
    <fieldset className="min-w-0">
      <legend className="caption">Whose it is; several chairs share it</legend>
      <div className="grid grid-cols-2 gap-x-4">
        {chairs.map(({ id, name }) => (
          <Checkbox
            key={id}
            label={name}
            checked={draft.chairs.includes(id)}
            onChange={(on) => toggle(id, on)}
          />
        ))}
      </div>
    </fieldset>
  );
};

/** Everything about a detail but its words. */
export const DetailFields = ({ draft, onChange, sections, fault }: DetailFieldsProps) => {
  const chairs = useChairs();
  const set = (change: Partial<DetailDraft>) => onChange({ ...draft, ...change });
  return (
    <div className="flex flex-col gap-4 py-2">
      <WhereField
        value={draft.where}
        onChange={(where) => set({ where })}
        sections={sections}
        error={fault?.field === "where" ? fault.sentence : undefined}
      />
      <TextField
        label="Right when"
        value={draft.right}
        onChange={(right) => set({ right })}
        hint="How everybody hears that it is right."
      />
      <Choice
        label="What missing it costs: must = a wreck, lift = the crowd feels it, polish = the players feel it"
        value={draft.weight}
        options={options(WEIGHTS)}
        onChange={(weight) => set({ weight })}
      />
      <Select label="Kind" value={draft.kind} options={KINDS} onChange={(kind) => set({ kind })} />
      <ChairBoxes draft={draft} onChange={onChange} />
      <Choice
        label="Ruling"
        value={draft.source}
        options={options(RULING_SOURCES)}
        onChange={(source) => set({ source })}
      />
      <Select
        label="Applies"
        value={draft.without ?? ALWAYS}
        options={[
          { value: ALWAYS, label: "always" },
          ...chairs.map(({ id, name }) => ({ value: id, label: `only when ${name} is away` })),
        ]}
        onChange={(without) => set({ without: without === ALWAYS ? null : without })}
      />
    </div>
  );
};
