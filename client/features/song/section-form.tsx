import { useEffect, useRef, useState } from "react";
import { LearnAgain } from "#client/pieces/detail/learn-again.tsx";
import { InPlaceForm } from "#client/pieces/in-place-form.tsx";
import { useAct } from "#client/pieces/use-act.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { later } from "#client/ui/later.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { parseForm } from "#shared/board/parse-form.ts";
import type { Section } from "#shared/board/song.ts";
import { reviseSection } from "#shared/commands/revise-section.ts";
import { formatKey, parseKey } from "#shared/music/key.ts";
import { formatMetre, parseMetre } from "#shared/music/metre.ts";
import { parseTempo } from "#shared/music/tempo.ts";

const BarTools = later(async () => (await import("./bar-tools.tsx")).BarTools, "min-h-48");

export interface SectionFormProps {
  readonly file: SongFile;
  readonly section: Section;
  readonly onDone: () => void;
}

interface Faults {
  readonly name?: string;
  readonly bars?: string;
  readonly repeats?: string;
  readonly metre?: string;
  readonly tempo?: string;
  readonly key?: string;
}

/** Renames a section or changes its bars. */
export const SectionForm = ({ file, section, onDone }: SectionFormProps) => {
  const act = useAct();
  const [name, setName] = useState(section.name);
  const [bars, setBars] = useState(String(section.bars));
  const [repeats, setRepeats] = useState(String(section.repeats));
  const [metre, setMetre] = useState(section.metre);
  const [tempo, setTempo] = useState(section.tempo === null ? "" : String(section.tempo));
  const [key, setKey] = useState(section.key);
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
    const times = /^[1-9]$/.test(repeats.trim()) ? Number(repeats) : null;
    if (times === null) return setFaults({ repeats: "From 1 to 9 times." });
    const own = metre.trim() === "" ? null : parseMetre(metre);
    if (own !== null && !own.ok) return setFaults({ metre: own.error });
    const bpm = tempo.trim() === "" ? null : parseTempo(tempo);
    if (bpm !== null && !bpm.ok) return setFaults({ tempo: bpm.error });
    const to = key.trim() === "" ? null : parseKey(key);
    if (to !== null && !to.ok) return setFaults({ key: to.error });
    const fields = {
      song: file.song.id,
      section: section.id,
      name: name.trim(),
      bars: count,
      repeats: times,
      metre: own === null ? "" : formatMetre(own.value),
      tempo: bpm === null ? null : bpm.value,
      key: to === null ? "" : formatKey(to.value),
    };
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
      <div className="grid grid-cols-2 gap-4 laptop:grid-cols-4">
        <TextField
          label="Times in a row"
          inputMode="numeric"
          value={repeats}
          onChange={setRepeats}
          error={faults.repeats}
        />
        <TextField
          label="Own metre"
          hint={`Empty: ${file.song.metre}`}
          value={metre}
          onChange={setMetre}
          error={faults.metre}
        />
        <TextField
          label="Own tempo"
          hint={file.song.tempo === null ? "Empty: the song's" : `Empty: ${file.song.tempo}`}
          inputMode="decimal"
          value={tempo}
          onChange={setTempo}
          error={faults.tempo}
        />
        <TextField
          label="Key from here on"
          hint="Empty: no change"
          value={key}
          onChange={setKey}
          error={faults.key}
        />
      </div>
      {longer ? <LearnAgain what="section" value={again} onChange={setAgain} /> : null}
      <Accordion summary="Bars within it: put in, take out, cut, join">
        <BarTools file={file} section={section} onDone={onDone} />
      </Accordion>
    </InPlaceForm>
  );
};
