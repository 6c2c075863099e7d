import { useAct } from "#client/pieces/use-act.ts";
import { Button } from "#client/ui/button.tsx";
import type { SongFile } from "#shared/board/board.ts";
import type { Section } from "#shared/board/song.ts";
import { joinOutcome } from "#shared/commands/join-outcome.ts";
import { joinSections } from "#shared/commands/join-sections.ts";
import { touchedWords } from "#shared/selectors/form-edit-words.ts";

export interface JoinToolProps {
  readonly file: SongFile;
  readonly section: Section;
  readonly onDone: () => void;
}

/** Joins a section with the one that follows. What moves and what is lost is said before, and why it cannot be. */
export const JoinTool = ({ file, section, onDone }: JoinToolProps) => {
  const act = useAct();
  const outcome = joinOutcome(file, section.id);
  if (outcome === null) return null;
  const { next, refusal, told } = outcome;
  const join = () => {
    const label = `${section.name} and ${next.name} joined`;
    if (act(joinSections, { song: file.song.id, section: section.id }, label)) onDone();
  };
  return (
    <div className="mt-3 border-t border-line pt-3">
      {refusal === null ? (
        <>
          <p className="caption pb-2">
            {[
              touchedWords(file, { of: "join", section: section.id, bars: section.bars, next: next.id }),
              ...told,
            ].join(" ")}
          </p>
          <Button onClick={join}>Join with {next.name}</Button>
        </>
      ) : (
        <p>
          Join with {next.name}: {refusal}
        </p>
      )}
    </div>
  );
};
