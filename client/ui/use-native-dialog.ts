import { type RefObject, type SyntheticEvent, useEffect, useLayoutEffect, useRef } from "react";

interface NativeDialog {
  readonly ref: RefObject<HTMLDialogElement | null>;
  readonly onCancel: (event: SyntheticEvent) => void;
  readonly onClose: () => void;
}

/**
 * Opens a `<dialog>` when it is mounted and closes it when it goes, so that the browser gives the focus back.
 * The focus starts on the element marked `data-first-focus`, else on the heading, never on the way out.
 */
export const useNativeDialog = (modal: boolean, onClose: () => void, subject?: string): NativeDialog => {
  const ref = useRef<HTMLDialogElement>(null);
  useLayoutEffect(() => {
    const dialog = ref.current;
    if (!dialog) return;
    if (modal) dialog.showModal();
    else dialog.show();
    return () => dialog.close();
  }, [modal]);
  // `subject` is what the panel is about: when it changes, the focus goes to the new heading.
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new subject must move the focus
  useEffect(() => {
    const dialog = ref.current;
    const first = dialog?.querySelector<HTMLElement>("[data-first-focus]") ?? dialog?.querySelector("h2");
    first?.focus();
  }, [modal, subject]);
  return {
    ref,
    onCancel: (event) => {
      // React owns the open state, so the browser may not close it alone. Cancel events of an inner
      // file picker bubble up to here and are none of ours.
      if (event.target !== ref.current) return;
      event.preventDefault();
      onClose();
    },
    onClose: () => {
      if (ref.current?.isConnected && !ref.current.open) onClose();
    },
  };
};
