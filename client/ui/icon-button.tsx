import type { LucideIcon } from "lucide-react";
import type { ComponentPropsWithRef } from "react";
import type { ControlSize } from "./button.tsx";
import { classNames } from "./class-names.ts";

export interface IconButtonProps extends Omit<ComponentPropsWithRef<"button">, "children"> {
  readonly icon: LucideIcon;
  /** The button's name: read aloud, and shown on hover. */
  readonly label: string;
  readonly size?: ControlSize;
}

/** A button with a sign only; for a few signs everybody knows (close, more, up, down). */
export const IconButton = ({ icon: Icon, label, size = "plain", className, ...rest }: IconButtonProps) => (
  <button
    type="button"
    aria-label={label}
    title={label}
    className={classNames(
      "inline-flex shrink-0 items-center justify-center rounded-edge text-quiet hover:text-ink disabled:opacity-50",
      size === "room" ? "size-14" : "size-12 dense:size-9",
      className,
    )}
    {...rest}
  >
    <Icon aria-hidden="true" size={size === "room" ? 26 : 20} strokeWidth={1.75} />
  </button>
);
