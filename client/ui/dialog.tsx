import { type ReactNode, useId } from "react";
import { ToastsInPanel } from "./toast.tsx";
import { useNativeDialog } from "./use-native-dialog.ts";

export interface DialogProps {
  readonly open: boolean;
  /** Escape and every button that leaves come through here. */
  readonly onClose: () => void;
  readonly title: string;
  readonly children: ReactNode;
  /** The answers, the main one first. */
  readonly actions?: ReactNode;
}

const OpenDialog = ({ onClose, title, children, actions }: Omit<DialogProps, "open">) => {
  const heading = useId();
  const dialog = useNativeDialog(true, onClose);
  return (
    <dialog
      {...dialog}
      // A panel around it must not take this Escape for its own.
      onKeyDown={(event) => event.key === "Escape" && event.stopPropagation()}
      aria-labelledby={heading}
      className="dialog flex-col border border-control border-t-4 border-t-ink bg-raised p-6 text-ink open:flex"
    >
      <h2 id={heading} tabIndex={-1} className="text-title font-semibold">
        {title}
      </h2>
      <div className="mt-3 min-h-0 overflow-y-auto">{children}</div>
      {actions ? (
        <div className="mt-6 flex flex-row-reverse flex-wrap justify-start gap-3">{actions}</div>
      ) : null}
      <ToastsInPanel />
    </dialog>
  );
};

/** A question that must be answered first. Focus goes in, stays in, and returns to where it was. */
export const Dialog = ({ open, ...rest }: DialogProps) => (open ? <OpenDialog {...rest} /> : null);
