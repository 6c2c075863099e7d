import Undo2 from "lucide-react/icons/undo-2";
import X from "lucide-react/icons/x";
import {
  createContext,
  type ReactNode,
  useCallback,
  useContext,
  useEffect,
  useId,
  useRef,
  useState,
} from "react";
import { assert } from "./assert.ts";
import { Button } from "./button.tsx";
import { IconButton } from "./icon-button.tsx";

/** How long an undo stays open (ms). The history keeps it for later. */
export const UNDO_OPEN_FOR = 10_000;

export interface Toast {
  /** What happened, in one sentence. */
  readonly text: string;
  /** Takes it back. */
  readonly undo?: () => void;
}

interface Shown extends Toast {
  readonly id: number;
}

interface Lines {
  readonly toasts: readonly Shown[];
  readonly close: (id: number) => void;
  /** The innermost modal panel, if one is open: all else is out of reach, so toasts must stand inside it. */
  readonly panel: string | undefined;
  readonly enter: (panel: string) => () => void;
}

const ShowToast = createContext<((toast: Toast) => void) | null>(null);
const ToastLines = createContext<Lines | null>(null);

/** Returns the function that shows a toast. Needs a `ToastRegion` above. */
export const useToast = (): ((toast: Toast) => void) => {
  const show = useContext(ShowToast);
  assert(show !== null, "useToast needs a ToastRegion above it");
  return show;
};

/** Calls `done` after `UNDO_OPEN_FOR` ms in sum; time stands still while paused. */
const useCountdown = (paused: boolean, done: () => void) => {
  const left = useRef(UNDO_OPEN_FOR);
  const latest = useRef(done);
  useEffect(() => {
    latest.current = done;
  });
  useEffect(() => {
    if (paused) return;
    const started = performance.now();
    const timer = setTimeout(() => latest.current(), left.current);
    return () => {
      clearTimeout(timer);
      left.current -= performance.now() - started;
    };
  }, [paused]);
};

const ToastLine = ({ toast, close }: { readonly toast: Shown; readonly close: () => void }) => {
  const [hovered, setHovered] = useState(false);
  const [focused, setFocused] = useState(false);
  const id = useId();
  useCountdown(hovered || focused, close);
  return (
    <li
      className="pointer-events-auto hidden items-center gap-2 border border-control border-l-4 border-l-ink bg-raised py-1 pr-1 pl-4 last:flex focus-within:flex laptop:flex"
      onPointerEnter={() => setHovered(true)}
      onPointerLeave={() => setHovered(false)}
      onFocus={() => setFocused(true)}
      onBlur={() => setFocused(false)}
    >
      <p id={`${id}-text`} className="min-w-0 flex-1 py-2">
        {toast.text}
      </p>
      {toast.undo ? (
        <Button
          aria-describedby={`${id}-text`}
          tone="quiet"
          icon={Undo2}
          className="px-3 font-semibold"
          onClick={() => {
            close();
            toast.undo?.();
          }}
        >
          Undo
        </Button>
      ) : null}
      <IconButton icon={X} label="Dismiss" aria-describedby={`${id}-text`} onClick={close} />
    </li>
  );
};

const LiveRegion = ({ children }: { readonly children: ReactNode }) => (
  <section
    aria-label="What just happened"
    aria-live="polite"
    className="no-print pointer-events-none fixed inset-x-0 bottom-[calc(4.75rem+env(safe-area-inset-bottom,0px))] z-40 mx-auto w-full max-w-lg px-3 laptop:bottom-4"
  >
    <ol data-toasts className="flex flex-col gap-2">
      {children}
    </ol>
  </section>
);

const linesOf = ({ toasts, close }: Lines) =>
  toasts.map((toast) => <ToastLine key={toast.id} toast={toast} close={() => close(toast.id)} />);

/** Inside a modal panel: the toasts stand here while the panel is the innermost one. */
export const ToastsInPanel = () => {
  const panel = useId();
  const lines = useContext(ToastLines);
  const enter = lines?.enter;
  useEffect(() => enter?.(panel), [enter, panel]);
  return lines ? <LiveRegion>{lines.panel === panel ? linesOf(lines) : null}</LiveRegion> : null;
};

/** At most this many lines at a time; the oldest gives way. */
const KEEP = 3;

/**
 * Shows toasts of everything below it, in the lower half where the thumb is, and reads them out politely.
 * A phone has room for the latest only; an earlier one comes back when it is dismissed.
 * Each stays for `UNDO_OPEN_FOR`; the time stands still under the pointer and while it has the focus.
 */
export const ToastRegion = ({ children }: { readonly children: ReactNode }) => {
  const [toasts, setToasts] = useState<readonly Shown[]>([]);
  const [panels, setPanels] = useState<readonly string[]>([]);
  const next = useRef(0);
  const show = useCallback((toast: Toast) => {
    next.current += 1;
    const id = next.current;
    setToasts((now) => [...now.slice(1 - KEEP), { ...toast, id }]);
  }, []);
  const close = useCallback((id: number) => setToasts((now) => now.filter((toast) => toast.id !== id)), []);
  const enter = useCallback((panel: string) => {
    setPanels((now) => [...now, panel]);
    return () => setPanels((now) => now.filter((other) => other !== panel));
  }, []);
  const lines = { toasts, close, enter, panel: panels.at(-1) };
  return (
    <ShowToast value={show}>
      <ToastLines value={lines}>
        {children}
        <LiveRegion>{lines.panel === undefined ? linesOf(lines) : null}</LiveRegion>
      </ToastLines>
    </ShowToast>
  );
};
