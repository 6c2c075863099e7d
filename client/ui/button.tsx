import type { LucideIcon } from "lucide-react";
import type { ComponentPropsWithRef } from "react";
import { classNames } from "./class-names.ts";

/** main = the one thing to do next; plain = the rest; quiet = inside a line of text; danger = takes something away. */
export type ButtonTone = "main" | "plain" | "quiet" | "danger";

/** plain: 48 px high on phones, 36 px under an aiming pointer; room: 56 px everywhere, for a dim room and one thumb. */
export type ControlSize = "plain" | "room";

// Filled buttons keep their own two colours when colours are forced: the browser would lay a plate behind the text.
const TONES: Record<ButtonTone, string> = {
  main: "forced-color-adjust-none border border-ink bg-ink text-ground font-semibold hover:bg-quiet hover:border-quiet",
  plain: "border border-control text-ink hover:border-ink",
  quiet: "text-ink underline decoration-control underline-offset-4 hover:decoration-ink",
  danger: "forced-color-adjust-none border border-slip text-slip hover:bg-slip hover:text-ground",
};

/** Shared by everything that is pressed. */
export const controlHeight = (size: ControlSize): string =>
  size === "room" ? "min-h-14 text-room" : "min-h-12 dense:min-h-9";

export interface ButtonProps extends ComponentPropsWithRef<"button"> {
  readonly tone?: ButtonTone;
  readonly size?: ControlSize;
  readonly icon?: LucideIcon;
}

/** A button with words. An unavailable one should stand beside the sentence that says why. */
export const Button = ({
  tone = "plain",
  size = "plain",
  icon: Icon,
  className,
  children,
  ...rest
}: ButtonProps) => (
  <button
    type="button"
    className={classNames(
      "inline-flex items-center justify-center gap-2 rounded-edge text-center",
      tone === "quiet" ? "min-w-11 px-1" : "px-4",
      controlHeight(size),
      TONES[tone],
      "disabled:border-dashed disabled:border-control disabled:bg-transparent disabled:text-quiet disabled:no-underline",
      className,
    )}
    {...rest}
  >
    {Icon ? <Icon aria-hidden="true" size={18} strokeWidth={1.75} /> : null}
    {children}
  </button>
);
