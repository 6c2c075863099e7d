import { type ReactNode, useId } from "react";
import { type ControlSize, controlHeight } from "./button.tsx";
import { classNames } from "./class-names.ts";

export interface ChoiceOption<Value extends string> {
  readonly value: Value;
  readonly label: ReactNode;
  readonly disabled?: boolean;
}

export interface ChoiceProps<Value extends string> {
  /** The question; read aloud before the options. */
  readonly label: string;
  readonly hideLabel?: boolean;
  /** null = nothing chosen yet. */
  readonly value: Value | null;
  readonly options: readonly ChoiceOption<Value>[];
  readonly onChange: (value: Value) => void;
  readonly size?: ControlSize;
  readonly className?: string;
}

/**
 * One of few, all in sight: a radio group laid out as a line of words between two hairlines.
 * One tab stop; arrow keys move the choice (native radio behaviour).
 */
export const Choice = <Value extends string>({ size = "plain", ...props }: ChoiceProps<Value>) => {
  const name = useId();
  return (
    <fieldset className={classNames("min-w-0", props.className)}>
      <legend className={props.hideLabel ? "sr-only" : "caption mb-1"}>{props.label}</legend>
      <div className="flex flex-wrap border-y border-control">
        {props.options.map((option) => (
          <label
            key={option.value}
            className={classNames(
              "relative flex min-w-11 flex-1 cursor-pointer items-center justify-center border-line px-3 text-center not-first:border-l",
              "text-quiet hover:text-ink has-checked:font-semibold has-checked:text-ink has-disabled:cursor-default has-disabled:italic",
              "has-focus-visible:outline-2 has-focus-visible:-outline-offset-2 has-focus-visible:outline-accent",
              controlHeight(size),
            )}
          >
            <input
              type="radio"
              name={name}
              value={option.value}
              checked={props.value === option.value}
              disabled={option.disabled}
              onChange={() => props.onChange(option.value)}
              className="peer absolute inset-0 size-full cursor-pointer appearance-none outline-none disabled:cursor-default"
            />
            <span
              aria-hidden="true"
              className="invisible absolute inset-x-0 -bottom-px border-b-4 border-ink peer-checked:visible"
            />
            <span className="pointer-events-none">{option.label}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
};
