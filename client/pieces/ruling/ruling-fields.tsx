import { Checkbox } from "#client/ui/checkbox.tsx";
import { Choice } from "#client/ui/choice.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { RULING_SOURCES, type RulingSource } from "#shared/board/card.ts";

/** Whether an edit is also a ruling, where it comes from and why. */
export interface RulingDraft {
  readonly on: boolean;
  readonly source: RulingSource;
  readonly why: string;
}

export const NO_RULING: RulingDraft = { on: false, source: "ours", why: "" };

export interface RulingFieldsProps {
  readonly ruling: RulingDraft;
  readonly onChange: (ruling: RulingDraft) => void;
  /** The form is for a ruling only, so there is nothing to switch on. */
  readonly always?: boolean;
}

/** Where a ruling comes from and why, so that it need not be argued again. */
export const RulingFields = ({ ruling, onChange, always = false }: RulingFieldsProps) => (
  <div className="flex flex-col gap-3">
    {always ? null : (
      <Checkbox
        label="Write this down as a ruling"
        hint="With its reason, so that it need not be argued again."
        checked={ruling.on}
        onChange={(on) => onChange({ ...ruling, on })}
      />
    )}
    {ruling.on || always ? (
      <>
        <Choice
          label="Where it comes from"
          value={ruling.source}
          options={RULING_SOURCES.map((source) => ({ value: source, label: source }))}
          onChange={(source) => onChange({ ...ruling, source })}
        />
        <TextField
          label="Why"
          value={ruling.why}
          maxLength={4000}
          onChange={(why) => onChange({ ...ruling, why })}
        />
      </>
    ) : null}
  </div>
);
