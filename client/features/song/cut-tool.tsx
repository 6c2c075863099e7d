import { useState } from "react";
import { useAct } from "#client/pieces/use-act.ts";
import { Button } from "#client/ui/button.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { halfName } from "#shared/board/half-name.ts";
import type { Section } from "#shared/board/song.ts";
import { splitSection } from "#shared/commands/split-section.ts";
import { touchedWords } from "#shared/selectors/form-edit-words.ts";

export interface CutToolProps {
  readonly file: SongFile;
  readonly section: Section;
  /** First bar of the second half; null = none was named. */
  readonly at: number | null;
  readonly onDone: () => void;
  /** Shows beside the bar what is wrong with it. */
  readonly onFault: (sentence: string | undefined) => void;
}

/** Cuts a section before a bar; the second half has a name of its own. */
export const CutTool = ({ file, section, at, onDone, onFault }: CutToolProps) => {
  const act = useAct();
  const names = file.sections.map(({ name }) => name);
  const [name, setName] = useState(() => halfName(section.name, names));
  const [fault, setFault] = useState<string | undefined>();
  if (section.bars < 2) return null;
  if (section.repeats > 1)
    return (
      <p className="caption mt-3 border-t border-line pt-3">
        {section.name} comes {section.repeats} times in a row and cannot be cut. Write it out first.
      </p>
    );
  const fits = at !== null && at >= 2 && at <= section.bars;
  const cut = () => {
    if (!fits) return onFault(`Cut before a bar from 2 to ${section.bars}: both halves need a bar.`);
    onFault(undefined);
    if (name.trim() === "") return setFault("Give the second half a name.");
    const args = { song: file.song.id, section: section.id, at, name: name.trim() };
    if (act(splitSection, args, `${section.name} cut before bar ${at}`)) onDone();
  };
  return (
    <div className="mt-3 border-t border-line pt-3">
      {fits ? (
        <p className="caption pb-2">
          Cut before bar {at}: {touchedWords(file, { of: "split", section: section.id, at, into: "" })}
        </p>
      ) : null}
      <div className="flex flex-wrap items-start gap-x-4 gap-y-2">
        <TextField
          className="w-56"
          label="Name of the second half"
          value={name}
          error={fault}
          onChange={(text) => {
            setName(text);
            setFault(undefined);
          }}
          maxLength={200}
        />
        <Button className="mt-5" onClick={cut}>
          Cut before it
        </Button>
      </div>
    </div>
  );
};
