import { useState } from "react";
import { useAct } from "#client/pieces/use-act.ts";
import { Button } from "#client/ui/button.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { SongFile } from "#shared/board/board.ts";
import type { Section } from "#shared/board/song.ts";
import { insertBars, removeBars } from "#shared/commands/edit-bars.ts";
import { touchedWords } from "#shared/selectors/form-edit-words.ts";
import { CutTool } from "./cut-tool.tsx";
import { JoinTool } from "./join-tool.tsx";

export interface BarToolsProps {
  readonly file: SongFile;
  readonly section: Section;
  readonly onDone: () => void;
}

const whole = (text: string): number | null => (/^\d{1,3}$/.test(text.trim()) ? Number(text) : null);

const barsWord = (n: number): string => `${n} ${n === 1 ? "bar" : "bars"}`;

/** Puts bars in, takes them out, cuts the section or joins it; details and who plays when move along. */
export const BarTools = ({ file, section, onDone }: BarToolsProps) => {
  const act = useAct();
  const [at, setAt] = useState("1");
  const [count, setCount] = useState("1");
  const [fault, setFault] = useState<string | undefined>();
  const song = file.song.id;
  const [bar, many] = [whole(at), whole(count)];
  const read = (): { readonly at: number; readonly count: number } | null => {
    if (bar === null || bar < 1 || bar > section.bars + 1) {
      setFault(`Name a bar from 1 to ${section.bars}; ${section.bars + 1} is behind the last.`);
      return null;
    }
    if (many === null || many < 1) {
      setFault("Say how many bars, at least 1.");
      return null;
    }
    setFault(undefined);
    return { at: bar, count: many };
  };
  const put = () => {
    const said = read();
    if (said === null) return;
    const label = `${barsWord(said.count)} put into ${section.name}`;
    if (act(insertBars, { song, section: section.id, ...said }, label)) onDone();
  };
  const take = () => {
    const said = read();
    if (said === null) return;
    const label = `${barsWord(said.count)} out of ${section.name}`;
    if (act(removeBars, { song, section: section.id, ...said }, label)) onDone();
  };
  return (
    <section aria-label={`Bars of ${section.name}`} className="border-t border-line pt-3">
      <div className="grid grid-cols-[8rem_8rem] gap-4">
        <TextField label="At bar" inputMode="numeric" value={at} error={fault} onChange={setAt} />
        <TextField label="How many" inputMode="numeric" value={count} onChange={setCount} />
      </div>
      {bar === null || many === null ? null : (
        <p className="caption py-2">
          Put in: {touchedWords(file, { of: "insert", section: section.id, at: bar, count: many })} Taken out:{" "}
          {touchedWords(file, { of: "remove", section: section.id, at: bar, count: many })}
        </p>
      )}
      <div className="flex flex-wrap gap-2">
        <Button onClick={put}>Put in before it</Button>
        <Button onClick={take}>Take out from it</Button>
      </div>
      <CutTool file={file} section={section} at={bar} onDone={onDone} onFault={setFault} />
      <JoinTool file={file} section={section} onDone={onDone} />
    </section>
  );
};
