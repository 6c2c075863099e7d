import { useEffect, useRef, useState } from "react";
import { LearnAgain } from "#client/pieces/detail/learn-again.tsx";
import { InPlaceForm } from "#client/pieces/in-place-form.tsx";
import { useAct } from "#client/pieces/use-act.ts";
import { TextField } from "#client/ui/text-field.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { parseForm } from "#shared/board/parse-form.ts";
import type { Section } from "#shared/board/song.ts";
import { reviseSection } from "#shared/commands/revise-section.ts";

export interface SectionFormProps {
  readonly file: SongFile;
  readonly section: Section;
  readonly onDone: () => void;
}

interface Faults {
  readonly name?: string;
  readonly bars?: string;
}

/** Renames a section or changes its bars. */
export const SectionForm = ({ file, section, onDone }: SectionFormProps) => {
  const act = useAct();
  const [name, setName] = useState(section.name);
  const [bars, setBars] = useState(String(section.bars));
  const [again, setAgain] = useState(false);
  const [faults, setFaults] = useState<Faults>({});
  const first = useRef<HTMLInputElement>(null);
  useEffect(() => first.current?.focus(), []);
  const longer = bars.trim() !== String(section.bars);
  const save = () => {
    if (name.trim() === "") return setFaults({ name: "Give the section a name." });
    const read = parseForm(`Section ${bars.trim()}`);
    const count = read.ok && read.value.length === 1 ? read.value[0]?.bars : undefined;
    if (count === undefined) return setFaults({ bars: "Bars are a whole number from 1 to 999." });
    const fields = { song: file.song.id, section: section.id, name: name.trim(), bars: count };
    const label = `${name.trim()}: ${count} ${count === 1 ? "bar" : "bars"}`;
    if (act(reviseSection, { ...fields, learnAgain: again && longer }, label)) onDone();
  };
  return (
    <InPlaceForm label={section.name} onSave={save} onLeave={onDone}>
      <div className="grid grid-cols-[1fr_6rem] gap-4">
        <TextField
          ref={first}
          label="Section"
          value={name}
          onChange={setName}
          error={faults.name}
          maxLength={200}
        />
        <TextField label="Bars" inputMode="numeric" value={bars} onChange={setBars} error={faults.bars} />
      </div>
      {longer ? <LearnAgain what="section" value={again} onChange={setAgain} /> : null}
    </InPlaceForm>
  );
};
