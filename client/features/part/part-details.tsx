import { DetailRow } from "#client/pieces/detail/detail-row.tsx";
import { NewsBar } from "#client/pieces/detail/news-bar.tsx";
import { useHeldList } from "#client/pieces/use-held-list.ts";
import { useBand } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { foldDetails } from "#shared/selectors/part-folds.ts";
import type { DetailLine } from "#shared/selectors/part-view.ts";

export interface PartDetailsProps {
  readonly song: SongFile;
  readonly details: readonly DetailLine[];
  /** The detail the screen was opened at. */
  readonly card?: string | undefined;
}

const idOf = ({ card }: DetailLine): string => card.id;
const counted = (n: number, what: string): string => `${n} more: ${what}`;

/** The details of a part, musts first; what is beyond the band's number and what is polish is folded. */
export const PartDetails = ({ song, details, card }: PartDetailsProps) => {
  const { settings } = useBand();
  const list = useHeldList(details, idOf);
  const gone = new Set(list.shown.filter((held) => held.gone).map(({ item }) => item.card.id));
  const folds = foldDetails(
    list.shown.map(({ item }) => item),
    settings.cardsShown,
  );

  const rows = (lines: readonly DetailLine[]) => (
    <ol>
      {lines.map((line) => (
        <DetailRow
          key={line.card.id}
          line={line}
          song={song}
          pointedOut={line.card.id === card}
          gone={gone.has(line.card.id)}
        />
      ))}
    </ol>
  );
  const holds = (lines: readonly DetailLine[]): boolean => lines.some((line) => line.card.id === card);
  return (
    <>
      {rows(folds.shown)}
      {folds.more.length === 0 ? null : (
        <Accordion summary={counted(folds.more.length, "lifts and musts")} startOpen={holds(folds.more)}>
          {rows(folds.more)}
        </Accordion>
      )}
      {folds.polish.length === 0 ? null : (
        <Accordion summary={`Polish (${folds.polish.length})`} startOpen={holds(folds.polish)}>
          {rows(folds.polish)}
        </Accordion>
      )}
      <NewsBar list={list} />
    </>
  );
};
