import type { LucideIcon } from "lucide-react";
import { type KeyboardEvent, type ReactNode, useId, useRef } from "react";
import { classNames } from "./class-names.ts";

export interface MenuItem {
  readonly label: string;
  readonly icon?: LucideIcon;
  /** Either goes somewhere … */
  readonly href?: string;
  /** … or does something. */
  readonly onSelect?: () => void;
  readonly danger?: boolean;
  readonly disabled?: boolean;
}

export interface MenuProps {
  /** Name of the button when `trigger` is a sign only. */
  readonly label?: string;
  readonly trigger: ReactNode;
  readonly items: readonly MenuItem[];
  readonly className?: string;
}

const ITEM =
  "flex w-full items-center gap-3 px-4 text-left min-h-12 dense:min-h-9 hover:bg-line focus-visible:-outline-offset-2 disabled:italic disabled:text-quiet";

const GAP = 4;

/** Puts the panel under its button, or above it where there is no room, inside the window in both directions. */
const place = (button: HTMLElement, panel: HTMLElement) => {
  const at = button.getBoundingClientRect();
  const below = at.bottom + GAP + panel.offsetHeight <= window.innerHeight;
  const left = Math.min(at.left, document.documentElement.clientWidth - panel.offsetWidth - GAP);
  panel.style.left = `${Math.max(GAP, left)}px`;
  panel.style.top = `${below ? at.bottom + GAP : Math.max(GAP, at.top - GAP - panel.offsetHeight)}px`;
};

const entriesOf = (panel: HTMLElement) => [
  ...panel.querySelectorAll<HTMLElement>('[role="menuitem"]:not(:disabled)'),
];

/** Where the focus goes for a key, by the menu pattern of the WAI-ARIA Authoring Practices; undefined = nowhere. */
const target = (entries: readonly HTMLElement[], key: string): HTMLElement | undefined => {
  const now = entries.findIndex((entry) => entry.matches(":focus"));
  if (key === "ArrowDown") return entries[(now + 1) % entries.length];
  if (key === "ArrowUp") return entries[(now <= 0 ? entries.length : now) - 1];
  if (key === "Home") return entries[0];
  if (key === "End") return entries[entries.length - 1];
  if (key.length !== 1 || key === " ") return undefined;
  const onwards = [...entries.slice(now + 1), ...entries.slice(0, now + 1)];
  return onwards.find((entry) => entry.textContent?.trim().toLowerCase().startsWith(key.toLowerCase()));
};

/** A button that opens a list of things to do: native popover, arrow keys, first letters, Escape. */
export const Menu = ({ label, trigger, items, className }: MenuProps) => {
  const id = useId();
  const button = useRef<HTMLButtonElement>(null);
  const panel = useRef<HTMLDivElement>(null);
  const close = () => panel.current?.hidePopover();
  const enter = () => {
    if (!button.current || !panel.current) return;
    place(button.current, panel.current);
    entriesOf(panel.current)[0]?.focus();
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (!panel.current || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === "Tab") return close();
    // The browser closes the list; a panel around it must not take this Escape for its own.
    if (event.key === "Escape") return event.stopPropagation();
    const next = target(entriesOf(panel.current), event.key);
    if (!next) return;
    event.preventDefault();
    next.focus();
  };
  return (
    <>
      <button
        ref={button}
        type="button"
        popoverTarget={id}
        aria-haspopup="menu"
        aria-label={label}
        className={classNames("inline-flex min-h-12 min-w-11 items-center gap-1 dense:min-h-9", className)}
        onKeyDown={(event) => {
          if (event.key !== "ArrowDown" && event.key !== "ArrowUp") return;
          event.preventDefault();
          if (panel.current?.matches(":popover-open") === false) panel.current.showPopover();
          enter();
        }}
      >
        {trigger}
      </button>
      <div
        ref={panel}
        id={id}
        popover="auto"
        role="menu"
        tabIndex={-1}
        aria-label={label ?? "Menu"}
        onKeyDown={onKeyDown}
        onToggle={(event) => {
          // Tells of the opening a moment late; by then a quick hand may be further down the list.
          if (event.newState === "open" && !event.currentTarget.matches(":focus-within")) enter();
        }}
        className="menu-panel min-w-52 max-w-[calc(100vw-1rem)] border border-control bg-raised py-1 text-ink"
      >
        {items.map((item) => (
          <MenuEntry key={item.label} item={item} close={close} />
        ))}
      </div>
    </>
  );
};

const MenuEntry = ({ item, close }: { readonly item: MenuItem; readonly close: () => void }) => {
  const Icon = item.icon;
  const inside = (
    <>
      {Icon ? <Icon aria-hidden="true" size={18} strokeWidth={1.75} className="text-quiet" /> : null}
      {item.label}
    </>
  );
  const look = classNames(ITEM, item.danger && "text-slip");
  if (item.href !== undefined && !item.disabled) {
    return (
      <a role="menuitem" tabIndex={-1} href={item.href} onClick={close} className={look}>
        {inside}
      </a>
    );
  }
  const choose = () => {
    close();
    item.onSelect?.();
  };
  return (
    <button
      type="button"
      role="menuitem"
      tabIndex={-1}
      disabled={item.disabled}
      onClick={choose}
      className={look}
    >
      {inside}
    </button>
  );
};
