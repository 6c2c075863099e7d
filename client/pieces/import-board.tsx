import { useState } from "react";
import { type LedBand, useBandAccess } from "#client/store/band-access.ts";
import { Button } from "#client/ui/button.tsx";
import { ErrorNote } from "#client/ui/error-note.tsx";
import { type BoardFile, parseBoardFile } from "#shared/exchange/board-json.ts";
import type { Result } from "#shared/lib/result.ts";
import { PickFile } from "./pick-file.tsx";

export interface ImportBoardProps {
  /** Called with the new board. */
  readonly onStarted: (band: LedBand) => void;
}

/** Starts a new board from a file that Tightrow exported. Nothing that exists is touched, whatever the file holds. */
export const ImportBoard = ({ onStarted }: ImportBoardProps) => {
  const access = useBandAccess();
  const [read, setRead] = useState<{ readonly name: string; readonly file: Result<BoardFile> } | null>(null);
  const [problem, setProblem] = useState("");
  const [busy, setBusy] = useState(false);
  const pick = (text: string, name: string) => {
    setProblem("");
    setRead({ name, file: parseBoardFile(text) });
  };
  const start = async (file: BoardFile) => {
    setBusy(true);
    const answer = await access.startFrom(file);
    setBusy(false);
    if (answer.ok) onStarted(answer.value);
    else setProblem(answer.error.message);
  };
  return (
    <>
      <PickFile label="Start a new board from a saved file" accept=".json,application/json" onText={pick} />
      {read === null ? null : read.file.ok ? (
        <FileFound name={read.name} file={read.file.value} busy={busy} onStart={start} />
      ) : (
        <div className="mt-3">
          <ErrorNote title={`“${read.name}” was not imported.`}>
            <p>{read.file.error}</p>
            <p>No board was changed.</p>
          </ErrorNote>
        </div>
      )}
      {problem ? (
        <div className="mt-3">
          <ErrorNote title={problem}>No board was changed.</ErrorNote>
        </div>
      ) : null}
    </>
  );
};

interface FileFoundProps {
  readonly name: string;
  readonly file: BoardFile;
  readonly busy: boolean;
  readonly onStart: (file: BoardFile) => Promise<void>;
}

const FileFound = ({ name, file, busy, onStart }: FileFoundProps) => {
  const entries = [...file.maps.values()].reduce((sum, map) => sum + map.length, 0);
  return (
    <div className="mt-3 flex flex-col items-start gap-2 border-l-4 border-l-ink pl-4">
      <p>
        “{name}” holds the board of <strong>{file.band || "a band without a name"}</strong>, saved on{" "}
        {file.exportedOn || "a day it does not name"}: {entries} entries.
      </p>
      <p className="text-quiet">
        It becomes a new board with you as its leader. It is not mixed into any board there is; the others
        need new links.
      </p>
      <Button tone="main" disabled={busy} onClick={() => void onStart(file)}>
        Start the new board
      </Button>
    </div>
  );
};
