import Download from "lucide-react/icons/download";
import { useState } from "react";
import { fileName, saveFile } from "#client/pieces/save-file.ts";
import { useBandAccess } from "#client/store/band-access.ts";
import { useAuthor, useBand, useBoardId, usePeople, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { ErrorNote } from "#client/ui/error-note.tsx";

/** What only one's own confirmed devices can read, as a file. */
export const PrivateValues = () => {
  const access = useBandAccess();
  const board = useBoardId();
  const { name } = useBand();
  const people = usePeople();
  const { member } = useAuthor();
  const [{ today }] = useViewpoint();
  const [said, setSaid] = useState("");
  const [problem, setProblem] = useState("");
  const me = member === null ? undefined : people.get(member);
  if (me === undefined) return null;
  const save = async () => {
    setSaid("");
    const answer = await access.privateValues(board);
    setProblem(answer.ok ? "" : answer.error.message);
    if (!answer.ok) return;
    if (answer.value.length === 0) return setSaid("There is nothing private to you on this board.");
    const values = Object.fromEntries(answer.value.map(({ key, value }) => [key, value]));
    const text = JSON.stringify({ band: name, person: me.name, savedOn: today, values }, null, 2);
    saveFile(fileName(name, `private-${me.name}`, today, "json"), `${text}\n`, "application/json");
    setSaid("The file is among your downloads.");
  };
  return (
    <div className="mb-4">
      <p className="max-w-2xl text-quiet">
        What you keep to yourself on this board lies on the server, readable by your own confirmed devices
        only.
      </p>
      <div className="mt-3 flex flex-wrap items-center gap-3">
        <Button icon={Download} onClick={() => void save()}>
          Save what is private to you
        </Button>
        <span role="status" className="caption">
          {said}
        </span>
      </div>
      {problem ? (
        <div className="mt-3">
          <ErrorNote title={problem} />
        </div>
      ) : null}
    </div>
  );
};
