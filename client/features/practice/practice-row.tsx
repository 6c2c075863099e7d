import { practiceLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { formatWhere } from "#shared/board/where.ts";
import { lastPlayedWords, partnersSentence } from "#shared/selectors/practice-list.ts";
import { usePracticeDetail } from "./use-detail.ts";

export interface PracticeRowProps {
  readonly song: string;
  readonly card: string;
  readonly member: string;
  readonly minutes: number;
}

/** One detail of the list: where, what, when it is right, with whom, and what was said of it today. */
export const PracticeRow = ({ song, card, member, minutes }: PracticeRowProps) => {
  const detail = usePracticeDetail(song, card, member);
  const names = useNames();
  const href = useHref();
  if (detail === null)
    return <li className="border-b border-line py-4 text-quiet">This detail is no longer on your parts.</li>;
  const { file, line, last, outcome } = detail;
  const partners = partnersSentence(line, names);
  return (
    <li className="border-b border-line" data-card={card}>
      <a
        href={href(practiceLink(song, card))}
        className="group flex items-start gap-4 py-3 -outline-offset-2"
      >
        <span className="min-w-0 flex-1">
          <span className="block text-quiet">
            {file.song.title} · {formatWhere(line.card.where, file.sections)}
          </span>
          <span
            className={`block decoration-control underline-offset-4 group-hover:underline ${line.card.weight === "must" ? "font-semibold" : ""}`}
          >
            {line.card.text || "a detail without words"}
          </span>
          {line.card.right === "" ? null : <span className="block text-quiet">→ {line.card.right}</span>}
          {partners === null ? null : <span className="block text-quiet">{partners}</span>}
          {outcome !== null ? null : <span className="block text-quiet">{lastPlayedWords(last)}</span>}
        </span>
        <span className="shrink-0 text-right">
          {outcome === null ? `${minutes} min` : <b className="font-semibold">{outcome}</b>}
        </span>
      </a>
    </li>
  );
};
