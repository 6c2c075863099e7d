import TriangleAlert from "lucide-react/icons/triangle-alert";
import { Button } from "#client/ui/button.tsx";
import { Checkbox } from "#client/ui/checkbox.tsx";
import { FURTHER_COLUMNS, FURTHER_NAMES, type FurtherFacts } from "#shared/exchange/further-columns.ts";
import type { PreviewLine } from "#shared/exchange/list-preview.ts";
import { listed } from "#shared/readiness/names.ts";
import { songFacts } from "#shared/selectors/song-facts.ts";

export interface PastePreviewProps {
  readonly lines: readonly PreviewLine[];
  /** Lines whose song is kept although it comes twice. */
  readonly kept: ReadonlySet<number>;
  readonly onKeep: (line: number, keep: boolean) => void;
  /** Shows a line in the text. */
  readonly onGoTo: (line: number) => void;
}

/** Which further columns were read, by name. */
const furtherWords = (further: FurtherFacts = {}): string => {
  const read = FURTHER_COLUMNS.filter((column) => further[column] !== undefined);
  return read.length === 0 ? "" : `with ${listed(read.map((column) => FURTHER_NAMES[column]))}`;
};

const Problems = ({ line, onGoTo }: { readonly line: PreviewLine; readonly onGoTo: () => void }) => (
  <>
    {line.problems.map(({ message }) => (
      <p key={message} className="flex items-start gap-2 text-small text-accent">
        <TriangleAlert aria-hidden="true" size={16} strokeWidth={2} className="mt-0.5" />
        <span>{message}</span>
      </p>
    ))}
    <Button tone="quiet" onClick={onGoTo} className="text-small">
      Go to line {line.line}
    </Button>
  </>
);

/** What was understood, line by line, in the order of the text. */
export const PastePreview = ({ lines, kept, onKeep, onGoTo }: PastePreviewProps) => (
  <ol aria-label="What was understood" className="mt-4 border-t border-control">
    {lines.map((line) => (
      <li key={line.line} className="border-b border-line py-1.5">
        <div className="flex gap-3">
          <span className="caption w-8 shrink-0 pt-0.5 text-right">
            <span className="sr-only">Line </span>
            {line.line}
          </span>
          <div className="min-w-0 flex-1">
            {line.song === null ? (
              <p className="expression text-quiet">no song read</p>
            ) : (
              <p className="flex flex-wrap justify-between gap-x-4">
                <span
                  className={line.song.duplicate && !kept.has(line.line) ? "text-quiet line-through" : ""}
                >
                  {line.song.title}
                </span>
                <span className="caption">
                  {[songFacts(line.song), furtherWords(line.song.further)]
                    .filter((words) => words !== "")
                    .join(" · ")}
                </span>
              </p>
            )}
            {line.problems.length === 0 ? null : <Problems line={line} onGoTo={() => onGoTo(line.line)} />}
            {line.song?.duplicate ? (
              <Checkbox
                label={`Keep it all the same: ${line.song.title}`}
                checked={kept.has(line.line)}
                onChange={(keep) => onKeep(line.line, keep)}
              />
            ) : null}
          </div>
        </div>
      </li>
    ))}
  </ol>
);
