import { useId, useState } from "react";
import { gigLink, partLink, questionsLink, songLink, takeLink } from "#client/pieces/links.ts";
import { AskQuestion } from "#client/pieces/questions/ask-question.tsx";
import { useAct } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor, useBand, useBoardStore, useSong } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { markDetail } from "#shared/commands/mark-detail.ts";
import { momentWords } from "#shared/lib/moment-words.ts";
import type { Item, Line } from "#shared/selectors/catch-up/item.ts";

export interface NewsItemProps {
  readonly item: Item;
  /** False once it is understood. */
  readonly open: boolean;
  readonly onUnderstand: () => void;
}

const linkOf = ({ song, chair, card, gig, question, take }: Item): string | null => {
  if (question !== null) return questionsLink();
  if (gig !== null) return gigLink(gig);
  if (song === null) return null;
  if (take !== null) return takeLink(song, take);
  return card !== null && chair !== null ? partLink(song, chair, card) : songLink(song);
};

const Change = ({ line: { what, before, after } }: { readonly line: Line }) => (
  <p>
    {what === "" ? null : <span className="text-quiet">{what}: </span>}
    {before === null ? null : (
      <>
        <span className="sr-only">before: </span>
        <del className="text-quiet">{before}</del>
        {after === null ? null : (
          <>
            <span aria-hidden="true"> → </span>
            <span className="sr-only"> now: </span>
          </>
        )}
      </>
    )}
    {after}
  </p>
);

/** Marks the detail as practised, where that is a step up. */
const Practised = ({ song, card }: { readonly song: string; readonly card: string }) => {
  const { member } = useAuthor();
  const file = useSong(song);
  const act = useAct();
  const level = file?.statuses.get(card)?.get(member ?? "")?.level ?? 0;
  const text = file?.cards.find(({ id }) => id === card)?.text ?? "";
  if (member === null || level >= 2) return null;
  return (
    <Button onClick={() => act(markDetail, { card, member, level: 2 }, `Practised: ${text}`)}>
      Practised
    </Button>
  );
};

/** One change, before and after, with its reason, and what can be done about it with one tap. */
export const NewsItem = ({ item, open, onUnderstand }: NewsItemProps) => {
  const href = useHref();
  const store = useBoardStore();
  const { role } = useAuthor();
  const { timeZone } = useBand();
  const [asking, setAsking] = useState<"ask" | "differ" | null>(null);
  const id = useId();
  const link = linkOf(item);
  const said = [item.who, item.at === null ? "" : momentWords(item.at, store.now(), timeZone)];
  return (
    <li className="border-b border-line py-3">
      <p id={id} className={item.rank >= 88 && open ? "font-semibold" : undefined}>
        {link === null ? item.title : <TextLink href={href(link)}>{item.title}</TextLink>}
        {item.fate === "" ? null : <span className="text-quiet font-normal"> · {item.fate}</span>}
      </p>
      {item.lines.map((line) => (
        <Change key={`${line.what}/${line.after}`} line={line} />
      ))}
      {item.why === "" ? null : <p>Why: {item.why}</p>}
      {item.note === "" ? null : <p className="caption">{item.note}</p>}
      <p className="caption">{said.filter((part) => part !== "").join(" · ")}</p>
      <div className="no-print flex flex-wrap items-center gap-2 pt-1">
        {open ? (
          <Button aria-describedby={id} onClick={onUnderstand}>
            Understood
          </Button>
        ) : (
          <span className="caption flex min-h-12 items-center dense:min-h-9">Understood</span>
        )}
        {item.group === "details" && item.song !== null && item.card !== null ? (
          <Practised song={item.song} card={item.card} />
        ) : null}
        {item.song === null || item.question !== null || role === "guest" ? null : (
          <Button
            tone="quiet"
            aria-describedby={id}
            aria-expanded={asking === "ask"}
            onClick={() => setAsking(asking === "ask" ? null : "ask")}
          >
            Ask
          </Button>
        )}
        {item.ruling === null || item.song === null || role === "guest" ? null : (
          <Button
            tone="quiet"
            aria-describedby={id}
            aria-expanded={asking === "differ"}
            onClick={() => setAsking(asking === "differ" ? null : "differ")}
          >
            I see it differently
          </Button>
        )}
      </div>
      {asking !== null && item.song !== null ? (
        <AskQuestion
          key={asking}
          song={item.song}
          card={item.card}
          ruling={asking === "differ" ? item.ruling : null}
          onAsked={() => setAsking(null)}
        />
      ) : null}
    </li>
  );
};
