import ChevronRight from "lucide-react/icons/chevron-right";
import { type ReactNode, useState } from "react";
import { type ControlSize, controlHeight } from "./button.tsx";
import { classNames } from "./class-names.ts";
import { usePrinting } from "./use-printing.ts";

export interface AccordionProps {
  /** The line that stays in sight. No controls inside: the whole line folds and unfolds. */
  readonly summary: ReactNode;
  readonly children: ReactNode;
  readonly size?: ControlSize;
  /** Folds of one name close each other. */
  readonly name?: string;
  /** Given together with `onToggle`: the caller holds the state. */
  readonly open?: boolean;
  readonly onToggle?: (open: boolean) => void;
  /** Unfolded at first, where the state is not the caller's. */
  readonly startOpen?: boolean;
  readonly className?: string;
}

/**
 * A part that folds. Its inside is built only while it is open, so a list of sixty costs sixty lines; on paper
 * it is always open.
 */
export const Accordion = ({ size = "plain", ...props }: AccordionProps) => {
  const [own, setOwn] = useState(props.startOpen === true);
  const printing = usePrinting();
  const open = props.open ?? own;
  return (
    <details
      name={printing ? undefined : props.name}
      open={open || printing}
      onToggle={(event) => {
        if (printing || event.target !== event.currentTarget) return;
        const now = event.currentTarget.open;
        if (now === open) return;
        setOwn(now);
        props.onToggle?.(now);
      }}
      className={classNames("fold border-b border-line", props.className)}
    >
      <summary className={classNames("flex items-center gap-2 -outline-offset-2", controlHeight(size))}>
        <ChevronRight aria-hidden="true" size={18} strokeWidth={1.75} className="fold-mark text-quiet" />
        <span className="min-w-0 flex-1">{props.summary}</span>
      </summary>
      {open || printing ? <div>{props.children}</div> : null}
    </details>
  );
};
