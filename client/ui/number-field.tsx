import Minus from "lucide-react/icons/minus";
import Plus from "lucide-react/icons/plus";
import { useState } from "react";
import { FIELD_LINE, Field, type FieldProps } from "./field.tsx";
import { IconButton } from "./icon-button.tsx";

export interface NumberFieldProps extends FieldProps {
  /** null = not given. */
  readonly value: number | null;
  /** Called with a number inside the bounds, or with null when the field is emptied; never with anything else. */
  readonly onChange: (value: number | null) => void;
  readonly min: number;
  readonly max: number;
  /** What one press of the buttons adds; 1 unless given. */
  readonly step?: number;
  /** Whole numbers only unless given as true. */
  readonly fractions?: boolean;
  /** Written after the number: bpm, bars, min. */
  readonly unit?: string;
  readonly disabled?: boolean;
}

/** Reads what was typed. A comma counts as a decimal point; `undefined` = not a number inside the bounds. */
export const parseNumber = (
  text: string,
  bounds: { readonly min: number; readonly max: number; readonly fractions: boolean },
): number | null | undefined => {
  const trimmed = text.trim().replace(",", ".");
  if (trimmed === "") return null;
  if (!/^-?\d+(\.\d+)?$/.test(trimmed)) return undefined;
  const value = Number(trimmed);
  if (!bounds.fractions && !Number.isInteger(value)) return undefined;
  return value >= bounds.min && value <= bounds.max ? value : undefined;
};

/** A number with a button on either side. What cannot be read stays in the field, with a sentence that says why. */
export const NumberField = (props: NumberFieldProps) => {
  const { label, value, onChange, min, max, step = 1, fractions = false, unit, disabled = false } = props;
  const [draft, setDraft] = useState<string | null>(null);
  const read = draft === null ? value : parseNumber(draft, { min, max, fractions });
  const refused = `Give a ${fractions ? "" : "whole "}number from ${min} to ${max}.`;
  const press = (by: number) => {
    setDraft(null);
    onChange(Math.min(max, Math.max(min, value === null ? min : value + by)));
  };
  const type = (text: string) => {
    const next = parseNumber(text, { min, max, fractions });
    setDraft(text);
    if (next !== undefined) onChange(next);
  };
  return (
    <Field
      label={unit ? `${label} (${unit})` : label}
      hideLabel={props.hideLabel}
      hint={props.hint}
      error={read === undefined ? refused : props.error}
      className={props.className}
    >
      {(wiring) => (
        <div className="flex items-end gap-1">
          <IconButton
            icon={Minus}
            label={`Less: ${label}`}
            disabled={disabled}
            onClick={() => press(-step)}
          />
          <input
            type="text"
            inputMode={fractions ? "decimal" : "numeric"}
            autoComplete="off"
            {...wiring}
            disabled={disabled}
            value={draft ?? (value === null ? "" : String(value))}
            onChange={(event) => type(event.target.value)}
            onBlur={() => read !== undefined && setDraft(null)}
            onKeyDown={(event) => {
              const by = event.key === "ArrowUp" ? step : event.key === "ArrowDown" ? -step : 0;
              if (by === 0) return;
              event.preventDefault();
              press(by);
            }}
            className={`${FIELD_LINE} min-w-14 text-center`}
          />
          <IconButton icon={Plus} label={`More: ${label}`} disabled={disabled} onClick={() => press(step)} />
        </div>
      )}
    </Field>
  );
};
