import { type FormEvent, useRef, useState } from "react";
import { step, useActTogether } from "#client/pieces/use-act.ts";
import { Button } from "#client/ui/button.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { parseForm, type TypedSection } from "#shared/board/parse-form.ts";
import { addSection } from "#shared/commands/add-section.ts";
import { writeForm } from "#shared/commands/write-form.ts";

const stepsFor = (file: SongFile, typed: readonly TypedSection[]) => {
  const song = file.song.id;
  if (file.sections.length === 0) return [step(writeForm, { song, sections: [...typed] })];
  return typed.map((section) => step(addSection, { song, ...section }));
};

/** Adds one section or many in one line. What cannot be read stays in the field, with the part that is wrong. */
export const AddSections = ({ file }: { readonly file: SongFile }) => {
  const act = useActTogether();
  const [text, setText] = useState("");
  const [fault, setFault] = useState<string | undefined>();
  const field = useRef<HTMLInputElement>(null);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const read = parseForm(text);
    if (!read.ok) {
      setFault(read.error);
      field.current?.focus();
      return;
    }
    const added = read.value.map(({ name }) => name).join(", ");
    if (!act(stepsFor(file, read.value), `Added to the form: ${added}`)) return;
    setText("");
    field.current?.focus();
  };
  return (
    <form onSubmit={submit} className="flex items-start gap-3 pt-3 no-print">
      <TextField
        ref={field}
        className="flex-1"
        label="Add sections"
        hint="Names with their bars, and how often: Intro 8, V1 16, Ch1 8 x2"
        value={text}
        onChange={(value) => {
          setText(value);
          setFault(undefined);
        }}
        error={fault}
      />
      <Button type="submit" className="mt-5">
        Add
      </Button>
    </form>
  );
};
