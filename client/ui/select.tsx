import ChevronDown from "lucide-react/icons/chevron-down";
import { classNames } from "./class-names.ts";
import { FIELD_LINE, Field, type FieldProps } from "./field.tsx";

/** One thing to choose. */
export interface Option<Value extends string> {
  readonly value: Value;
  readonly label: string;
  readonly disabled?: boolean;
}

export interface SelectProps<Value extends string> extends FieldProps {
  readonly value: Value;
  readonly options: readonly Option<Value>[];
  readonly onChange: (value: Value) => void;
  readonly disabled?: boolean;
}

/** One of many, by the system's own list. */
export const Select = <Value extends string>(props: SelectProps<Value>) => (
  <Field
    label={props.label}
    hideLabel={props.hideLabel}
    hint={props.hint}
    error={props.error}
    className={props.className}
  >
    {(wiring) => (
      <span className="relative block">
        <select
          {...wiring}
          disabled={props.disabled}
          value={props.value}
          onChange={(event) => {
            const chosen = props.options.find((option) => option.value === event.target.value);
            if (chosen) props.onChange(chosen.value);
          }}
          className={classNames(FIELD_LINE, "appearance-none bg-ground pr-8")}
        >
          {props.options.map((option) => (
            <option key={option.value} value={option.value} disabled={option.disabled}>
              {option.label}
            </option>
          ))}
        </select>
        <ChevronDown
          aria-hidden="true"
          size={18}
          strokeWidth={1.75}
          className="pointer-events-none absolute inset-y-0 right-1 my-auto text-quiet"
        />
      </span>
    )}
  </Field>
);
