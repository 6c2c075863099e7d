import type { Gig } from "#shared/board/band.ts";
import type { Day } from "#shared/lib/calendar.ts";
import { missingWords } from "#shared/selectors/evenings.ts";
import { useMissing } from "./use-missing.ts";
import { useNames } from "./use-names.ts";

export interface MissingLineProps {
  readonly day: Day;
  /** The gig of that day, whose own line-up then counts. */
  readonly gig?: Pick<Gig, "lineUp"> | null;
}

/** Who is missing on a day and which chairs that leaves empty, in one line; nothing while nobody is. */
export const MissingLine = ({ day, gig = null }: MissingLineProps) => {
  const names = useNames();
  const words = missingWords(useMissing(day, gig), names);
  return words === "" ? null : <span className="caption block text-accent">{words}</span>;
};
