import { type FormEvent, useRef, useState } from "react";
import { useTellDone } from "#client/pieces/use-act.ts";
import { useDraft } from "#client/pieces/use-draft.ts";
import { useBoardId, useBoardStore } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { addSong } from "#shared/commands/add-song.ts";

export interface AddSongLineProps {
  /** Called after each song that went in. */
  readonly onAdded?: () => void;
}

/** Adds a song by its title. Enter adds it and stays for the next; the rest is filled in on the song's page. */
export const AddSongLine = ({ onAdded }: AddSongLineProps) => {
  const store = useBoardStore();
  const tell = useTellDone();
  const field = useRef<HTMLInputElement>(null);
  const [title, setTitle] = useDraft(`song.${useBoardId()}`);
  const [refused, setRefused] = useState("");
  const add = (event: FormEvent) => {
    event.preventDefault();
    const result = store.run(addSong, { title, stage: "learning" }, `Added: ${title.trim()}`);
    if (!result.ok) {
      setRefused(title.trim() === "" ? "Write the song's title first." : result.error.sentence);
      field.current?.focus();
      return;
    }
    tell(result.value);
    setTitle("");
    setRefused("");
    field.current?.focus();
    onAdded?.();
  };
  return (
    <form onSubmit={add} className="flex items-start gap-3">
      <TextField
        ref={field}
        label="Add a song by its title"
        value={title}
        onChange={(text) => {
          setTitle(text);
          setRefused("");
        }}
        error={refused || undefined}
        enterKeyHint="done"
        className="flex-1"
      />
      <Button type="submit" className="mt-5">
        Add
      </Button>
    </form>
  );
};
