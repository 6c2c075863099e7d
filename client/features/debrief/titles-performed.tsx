import { CopyText } from "#client/pieces/copy-text.tsx";
import { fileName, saveFile } from "#client/pieces/save-file.ts";
import { useBand, useWholeBoard } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Button } from "#client/ui/button.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import type { Gig } from "#shared/board/band.ts";
import { writePerformed } from "#shared/exchange/performed-csv.ts";
import type { DebriefRow } from "#shared/selectors/debrief.ts";

export interface TitlesPerformedProps {
  readonly gig: Gig;
  readonly rows: readonly DebriefRow[];
}

/** The titles for whoever collects such lists, as a table and as plain text. */
export const TitlesPerformed = ({ gig, rows }: TitlesPerformedProps) => {
  const board = useWholeBoard();
  const band = useBand();
  const titles = rows.filter(({ take }) => take !== null).map(({ title }) => title);
  if (titles.length === 0) return null;
  const save = () =>
    saveFile(fileName(band.name, "performed", gig.date, "csv"), writePerformed(board, gig), "text/csv");
  return (
    <section aria-labelledby="titles-performed" className="no-print">
      <SectionHeading
        title={<span id="titles-performed">Titles performed</span>}
        aside={titles.length === 1 ? "1 song" : `${titles.length} songs`}
      />
      <div className="py-3">
        <Button onClick={save}>Titles performed, as CSV</Button>
      </div>
      <Accordion summary="As text, to copy">
        <div className="py-3">
          <CopyText
            label="Titles, one a line"
            text={titles.map((title, i) => `${i + 1}. ${title}`).join("\n")}
          />
        </div>
      </Accordion>
    </section>
  );
};
