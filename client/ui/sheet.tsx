import X from "lucide-react/icons/x";
import { type ReactNode, useId } from "react";
import { IconButton } from "./icon-button.tsx";
import { ToastsInPanel } from "./toast.tsx";
import { LAPTOP, useMediaQuery } from "./use-media-query.ts";
import { useNativeDialog } from "./use-native-dialog.ts";

export interface SheetProps {
  readonly open: boolean;
  /** Escape, the close button and, where the sheet is modal, a tap beside it come through here. */
  readonly onClose: () => void;
  readonly title: ReactNode;
  /** One quiet line over the title. */
  readonly above?: ReactNode;
  readonly children: ReactNode;
  /** Stays in sight at the lower end. */
  readonly actions?: ReactNode;
  /** What the sheet is about; when it changes while open, the focus goes to the new title. */
  readonly subject?: string;
  /** Holds the rest of the page still even on a laptop. */
  readonly modal?: boolean;
}

const OpenSheet = (props: Omit<SheetProps, "open">) => {
  const heading = useId();
  const laptop = useMediaQuery(LAPTOP);
  const modal = props.modal === true || !laptop;
  const dialog = useNativeDialog(modal, props.onClose, props.subject);
  return (
    <dialog
      {...dialog}
      key={modal ? "modal" : "beside"}
      aria-labelledby={heading}
      onClick={(event) => modal && event.target === event.currentTarget && props.onClose()}
      onKeyDown={(event) => {
        // Only a modal dialog gets Escape from the browser.
        if (modal || event.key !== "Escape" || event.defaultPrevented) return;
        event.stopPropagation();
        props.onClose();
      }}
      className="sheet z-30 flex-col border-control bg-raised p-0 text-ink not-laptop:border-t-4 not-laptop:border-t-ink laptop:border-l open:flex"
    >
      <header className="flex items-start justify-between gap-2 border-b border-line py-2 pr-2 pl-5">
        <div className="min-w-0 py-2">
          {props.above ? <p className="caption">{props.above}</p> : null}
          <h2 id={heading} tabIndex={-1} className="text-title font-semibold">
            {props.title}
          </h2>
        </div>
        <IconButton icon={X} label="Close" onClick={props.onClose} />
      </header>
      <section
        aria-labelledby={heading}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard
        tabIndex={0}
        className="min-h-0 flex-1 overflow-y-auto overscroll-contain px-5 py-4 -outline-offset-2"
      >
        {props.children}
      </section>
      {props.actions ? (
        <footer className="border-t border-line px-5 pt-3">
          <div className="flex flex-wrap gap-3 pb-3">{props.actions}</div>
          <div className="pb-safe" />
        </footer>
      ) : (
        <div className="pb-safe" />
      )}
      {modal ? <ToastsInPanel /> : null}
    </dialog>
  );
};

/**
 * More about one thing: a panel at the side on a laptop, where the page stays usable beside it; a sheet from
 * below on a phone, where the page waits.
 */
export const Sheet = ({ open, ...rest }: SheetProps) => (open ? <OpenSheet {...rest} /> : null);
