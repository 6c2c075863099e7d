import X from "lucide-react/icons/x";
import { useState } from "react";
import { Confirm } from "#client/pieces/confirm.tsx";
import { useTellDone } from "#client/pieces/use-act.ts";
import { useBoardStore } from "#client/store/hooks.ts";
import { IconButton } from "#client/ui/icon-button.tsx";
import { useToast } from "#client/ui/toast.tsx";
import type { SongFile } from "#shared/board/board.ts";
import type { Section } from "#shared/board/song.ts";
import { removeSection } from "#shared/commands/revise-section.ts";
import { err, ok } from "#shared/lib/result.ts";
import { takenOutTold } from "#shared/selectors/form-edit-words.ts";

export interface TakeOutSectionProps {
  readonly file: SongFile;
  readonly section: Section;
}

/** Takes a section out of the form; asks first where something hangs on it. */
export const TakeOutSection = ({ file, section }: TakeOutSectionProps) => {
  const store = useBoardStore();
  const tell = useTellDone();
  const toast = useToast();
  const [asking, setAsking] = useState(false);
  const told = takenOutTold(file, section.id);
  const takeOut = () => {
    const args = { song: file.song.id, section: section.id };
    const done = store.run(removeSection, args, `Taken out of the form: ${section.name}`);
    if (done.ok) tell(done.value);
    return done;
  };
  const press = () => {
    if (told.length > 0) return setAsking(true);
    const done = takeOut();
    if (!done.ok) toast({ text: done.error.sentence });
  };
  return (
    <>
      <IconButton icon={X} label={`Take out: ${section.name}`} onClick={press} />
      {asking ? (
        <Confirm
          title={`Take ${section.name} out of the form?`}
          yes="Take it out"
          onYes={async () => {
            const done = takeOut();
            return done.ok ? ok(null) : err({ message: done.error.sentence });
          }}
          onClose={() => setAsking(false)}
        >
          {told.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
          <p>What is written stays, and one undo brings all of it back.</p>
        </Confirm>
      ) : null}
    </>
  );
};
