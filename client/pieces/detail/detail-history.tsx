import { useAuthor, useBand, useViewpoint } from "#client/store/hooks.ts";
import type { SongFile } from "#shared/board/board.ts";
import type { Card } from "#shared/board/card.ts";
import { dayOf } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { type ChangeWords, changeSentence, changesOf } from "#shared/selectors/detail-changes.ts";
import { useNames } from "../use-names.ts";

/** What change sentences need from the board and this device. */
export const useChangeWords = (): ChangeWords => {
  const names = useNames();
  const { timeZone } = useBand();
  const [{ today }] = useViewpoint();
  const { writer } = useAuthor();
  return { names, timeZone, today, writer };
};

/** Everybody's last change on a detail, and who wrote it down. */
export const DetailHistory = ({ card, song }: { readonly card: Card; readonly song: SongFile }) => {
  const words = useChangeWords();
  const { names, timeZone, today } = words;
  const day = (at: number): string => dayWords(dayOf(at, timeZone), { today });
  const by = card.createdBy === "" ? "" : ` by ${names.member(card.createdBy)}`;
  return (
    <ul aria-label="Who said what, and when" className="caption my-2 border-l-2 border-line pl-3">
      {changesOf(song, card.id).map((change) => (
        <li key={change.member}>{changeSentence(change, words)}</li>
      ))}
      {card.since > card.createdAt ? <li>To be learnt again since {day(card.since)}</li> : null}
      <li>
        Written{by}, {day(card.createdAt)}
      </li>
    </ul>
  );
};
