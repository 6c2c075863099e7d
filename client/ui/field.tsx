import TriangleAlert from "lucide-react/icons/triangle-alert";
import { type ReactNode, useId } from "react";
import { classNames } from "./class-names.ts";

/** What every field of a form has in common. */
export interface FieldProps {
  readonly label: string;
  /** The label is read aloud but not shown, where a column head already says it. */
  readonly hideLabel?: boolean | undefined;
  /** One line under the field. */
  readonly hint?: ReactNode | undefined;
  /** What is wrong and how to mend it; its presence marks the field invalid. */
  readonly error?: string | undefined;
  readonly className?: string | undefined;
}

/** Attributes that tie a control to its label, hint and error. */
export interface FieldWiring {
  readonly id: string;
  readonly "aria-describedby": string | undefined;
  readonly "aria-invalid": true | undefined;
}

/** The line a control is written on: a rule to fill in, as on a printed form. */
export const FIELD_LINE =
  "w-full rounded-none border-b border-control bg-transparent py-2 text-ink min-h-12 dense:min-h-9 dense:py-1 " +
  "placeholder:text-quiet placeholder:italic hover:border-ink aria-invalid:border-b-2 aria-invalid:border-accent " +
  "disabled:border-dashed disabled:text-quiet";

/** Label above, control, then hint and error. */
export const Field = ({
  label,
  hideLabel,
  hint,
  error,
  className,
  children,
}: FieldProps & { readonly children: (wiring: FieldWiring) => ReactNode }) => {
  const id = useId();
  const described = [hint ? `${id}-hint` : "", error ? `${id}-error` : ""].filter(Boolean).join(" ");
  return (
    <div className={classNames("flex min-w-0 flex-col", className)}>
      <label htmlFor={id} className={hideLabel ? "sr-only" : "caption"}>
        {label}
      </label>
      {children({
        id,
        "aria-describedby": described || undefined,
        "aria-invalid": error ? true : undefined,
      })}
      {hint ? (
        <p id={`${id}-hint`} className="caption mt-1">
          {hint}
        </p>
      ) : null}
      {error ? (
        <p id={`${id}-error`} className="mt-1 flex items-start gap-2 text-small text-accent">
          <TriangleAlert aria-hidden="true" size={16} strokeWidth={2} className="mt-0.5" />
          {error}
        </p>
      ) : null}
    </div>
  );
};
