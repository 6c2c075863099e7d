import { useState } from "react";
import { useBand, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { later } from "#client/ui/later.tsx";
import type { SongFile } from "#shared/board/board.ts";
import type { Card } from "#shared/board/card.ts";
import { openDisagreements, rulingsOn, standingRulings } from "#shared/board/ruling.ts";
import { dayOf } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { useNames } from "../use-names.ts";

const History = later(async () => (await import("./ruling-history.tsx")).RulingHistory, "min-h-12");

/** The ruling that counts on a detail, in one line; what was ruled before stands behind a tap. */
export const RulingNote = ({ card, song }: { readonly card: Card; readonly song: SongFile }) => {
  const names = useNames();
  const { timeZone } = useBand();
  const [{ today }] = useViewpoint();
  const [open, setOpen] = useState(false);
  const rulings = rulingsOn(song, { card: card.id, about: "detail" });
  const counts = rulings.at(-1);
  if (counts === undefined) return null;
  const apart = standingRulings(rulings).slice(0, -1);
  const contested = openDisagreements(song).some(({ ruling }) => rulings.some(({ id }) => id === ruling));
  const tally = rulings.length === 1 ? "The ruling" : `${rulings.length} rulings`;
  const who = counts.by === "" ? "somebody" : names.member(counts.by);
  return (
    <div className="my-1">
      <p>
        <span className="expression">{counts.source}</span>: {counts.text}{" "}
        <span className="caption">
          decided by {who}, {dayWords(dayOf(counts.at, timeZone), { today })}
        </span>
      </p>
      {apart.length === 0 ? null : (
        <p className="font-semibold">
          Ruled apart, without knowing of this: {apart.map(({ text }) => `“${text}”`).join(", ")}. The later
          one counts until somebody rules again.
        </p>
      )}
      {contested ? <p className="font-semibold">Somebody sees it differently.</p> : null}
      <Button
        tone="quiet"
        className="no-print"
        aria-expanded={open}
        aria-label={`${tally}: ${card.text}`}
        onClick={() => setOpen(!open)}
      >
        {tally}
      </Button>
      {open ? <History rulings={rulings} file={song} label={`Rulings on: ${card.text}`} /> : null}
    </div>
  );
};
