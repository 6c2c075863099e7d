import { useState } from "react";
import { useAuthor, useBand, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { openDisagreements } from "#shared/board/ruling.ts";
import type { Ruling } from "#shared/board/song.ts";
import { withdrawRuling } from "#shared/commands/rule.ts";
import { dayOf } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { capital } from "#shared/readiness/names.ts";
import { AskQuestion } from "../questions/ask-question.tsx";
import { useAct } from "../use-act.ts";
import { useNames } from "../use-names.ts";

/** Before → after, for the eye and the ear. */
const BeforeAfter = ({ before, text }: Pick<Ruling, "before" | "text">) => (
  <p>
    {before === "" ? null : (
      <>
        <span className="sr-only">before: </span>
        <span className="text-quiet">{before}</span>
        <span aria-hidden="true"> → </span>
        <span className="sr-only">, now: </span>
      </>
    )}
    {text}
  </p>
);

/** One ruling: from where, by whom and when, before → after, why; to see it differently, or withdraw it. */
export const RulingLine = ({ ruling, file }: { readonly ruling: Ruling; readonly file: SongFile }) => {
  const act = useAct();
  const names = useNames();
  const author = useAuthor();
  const { timeZone } = useBand();
  const [{ today }] = useViewpoint();
  const [differing, setDiffering] = useState(false);
  const who = ruling.by === "" ? "somebody" : names.member(ruling.by);
  const contested = openDisagreements(file).some((question) => question.ruling === ruling.id);
  const mayWithdraw = author.role === "leader" || (author.member !== null && author.member === ruling.by);
  return (
    <li className="border-b border-line py-2">
      <p className="caption">
        {capital(ruling.about)} · <span className="expression">{ruling.source}</span> · decided by {who},{" "}
        {dayWords(dayOf(ruling.at, timeZone), { today })}
      </p>
      <BeforeAfter {...ruling} />
      {ruling.why === "" ? null : <p className="text-quiet">because {ruling.why}</p>}
      {contested ? <p className="font-semibold">Somebody sees it differently.</p> : null}
      {differing ? (
        <AskQuestion
          song={ruling.song}
          card={ruling.card}
          ruling={ruling.id}
          onAsked={() => setDiffering(false)}
        />
      ) : null}
      {author.role === "guest" ? null : (
        <div className="no-print flex flex-wrap gap-x-3">
          <Button
            tone="quiet"
            aria-expanded={differing}
            aria-label={`I see it differently: ${ruling.text}`}
            onClick={() => setDiffering(!differing)}
          >
            I see it differently
          </Button>
          {mayWithdraw ? (
            <Button
              tone="quiet"
              aria-label={`Take the ruling back: ${ruling.text}`}
              onClick={() => act(withdrawRuling, { ruling: ruling.id }, `Ruling withdrawn: ${ruling.text}`)}
            >
              Take the ruling back
            </Button>
          ) : null}
        </div>
      )}
    </li>
  );
};
