import type { ComponentPropsWithRef } from "react";
import { classNames } from "./class-names.ts";
import { FIELD_LINE, Field, type FieldProps } from "./field.tsx";

type Native = Omit<ComponentPropsWithRef<"input">, "value" | "onChange" | "className" | "id" | "size">;

export interface TextFieldProps extends FieldProps, Native {
  readonly value: string;
  readonly onChange: (value: string) => void;
}

/** One line of text. Everything an `<input>` takes passes through (`inputMode`, `list`, `onBlur`, `ref` …). */
export const TextField = ({
  label,
  hideLabel,
  hint,
  error,
  className,
  value,
  onChange,
  ...rest
}: TextFieldProps) => (
  <Field label={label} hideLabel={hideLabel} hint={hint} error={error} className={className}>
    {(wiring) => (
      <input
        type="text"
        autoComplete="off"
        {...rest}
        {...wiring}
        value={value}
        onChange={(event) => onChange(event.target.value)}
        className={FIELD_LINE}
      />
    )}
  </Field>
);

type NativeArea = Omit<ComponentPropsWithRef<"textarea">, "value" | "onChange" | "className" | "id">;

export interface TextAreaProps extends FieldProps, NativeArea {
  readonly value: string;
  readonly onChange: (value: string) => void;
}

/** Several lines of text, growing with what is written. */
export const TextArea = ({
  label,
  hideLabel,
  hint,
  error,
  className,
  value,
  onChange,
  ...rest
}: TextAreaProps) => (
  <Field label={label} hideLabel={hideLabel} hint={hint} error={error} className={className}>
    {(wiring) => (
      <textarea
        rows={3}
        {...rest}
        {...wiring}
        value={value}
        onChange={(event) => onChange(event.target.value)}
        className={classNames(FIELD_LINE, "field-sizing-content min-h-24 resize-y")}
      />
    )}
  </Field>
);
