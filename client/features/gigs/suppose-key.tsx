import { type FormEvent, useState } from "react";
import { Button } from "#client/ui/button.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { formatKey, parseKey } from "#shared/music/key.ts";

export interface SupposeKeyProps {
  readonly songs: readonly { readonly id: string; readonly title: string }[];
  readonly onKey: (song: string, key: string) => void;
}

/** Supposes another key for one song of the night. */
export const SupposeKey = ({ songs, onKey }: SupposeKeyProps) => {
  const [song, setSong] = useState(songs[0]?.id ?? "");
  const [text, setText] = useState("");
  const [fault, setFault] = useState<string | undefined>();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const key = parseKey(text);
    if (!key.ok) return setFault(key.error);
    setFault(undefined);
    setText("");
    if (song !== "") onKey(song, formatKey(key.value));
  };
  return (
    <form noValidate onSubmit={submit} className="grid grid-cols-2 items-end gap-3">
      <Select
        label="Tonight"
        value={song}
        options={songs.map(({ id, title }) => ({ value: id, label: title }))}
        onChange={setSong}
      />
      <div className="flex items-end gap-2">
        <TextField
          label="in the key of"
          className="min-w-0 flex-1"
          value={text}
          error={fault}
          onChange={setText}
        />
        <Button type="submit">Try</Button>
      </div>
    </form>
  );
};
