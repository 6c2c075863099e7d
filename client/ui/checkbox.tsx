import Check from "lucide-react/icons/check";
import type { ReactNode } from "react";
import { type ControlSize, controlHeight } from "./button.tsx";
import { classNames } from "./class-names.ts";

export interface CheckboxProps {
  readonly label: ReactNode;
  readonly checked: boolean;
  readonly onChange: (checked: boolean) => void;
  /** One quiet line under the label. */
  readonly hint?: ReactNode;
  readonly size?: ControlSize;
  readonly disabled?: boolean;
  readonly className?: string;
}

/** Yes or no. The whole line is the target. */
export const Checkbox = ({ size = "plain", ...props }: CheckboxProps) => (
  <label
    className={classNames(
      "group flex cursor-pointer items-center gap-3 has-disabled:cursor-default has-disabled:text-quiet",
      controlHeight(size),
      props.className,
    )}
  >
    <span className="relative inline-flex size-6 shrink-0">
      <input
        type="checkbox"
        checked={props.checked}
        disabled={props.disabled}
        onChange={(event) => props.onChange(event.target.checked)}
        className="peer size-6 appearance-none rounded-edge border border-control checked:border-ink checked:bg-ink disabled:border-dashed group-hover:border-ink forced-colors:appearance-auto"
      />
      <Check
        aria-hidden="true"
        size={18}
        strokeWidth={2.5}
        className="pointer-events-none absolute inset-0 m-auto hidden text-ground peer-checked:block forced-colors:hidden!"
      />
    </span>
    <span>
      {props.label}
      {props.hint ? <span className="caption block">{props.hint}</span> : null}
    </span>
  </label>
);
