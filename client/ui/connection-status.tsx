export interface ConnectionStatusProps {
  /** joined = a whole line; apart = a broken line; refused = a broken line struck through. */
  readonly state: "joined" | "apart" | "refused";
  /** What it means for what was just done: "all sent", "saved on this phone, 3 to send". */
  readonly text: string;
  /** Opens the details. */
  readonly onOpen?: () => void;
  /** Holds its width while the words change, so that nothing beside it moves. */
  readonly steady?: boolean;
}

const LINES = {
  joined: "M1 7H23",
  apart: "M1 7H8M16 7H23",
  refused: "M1 7H8M16 7H23M9 2L15 12",
} as const;

/** Connection and save state in one quiet line of text; never in the way. */
export const ConnectionStatus = ({ state, text, onOpen, steady = false }: ConnectionStatusProps) => {
  const look = `inline-flex min-h-11 items-center gap-2 text-small text-quiet ${steady ? "min-w-[min(11.5rem,52vw)] max-w-[60vw] shrink-0" : ""}`;
  const inside = (
    <>
      <svg
        aria-hidden="true"
        width="24"
        height="14"
        strokeWidth="1.75"
        className={state === "refused" ? "stroke-slip" : "stroke-current"}
      >
        <path d={LINES[state]} />
      </svg>
      {text}
    </>
  );
  if (!onOpen) return <p className={look}>{inside}</p>;
  return (
    <button type="button" onClick={onOpen} className={`${look} hover:text-ink`}>
      {inside}
    </button>
  );
};
