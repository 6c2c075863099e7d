import Download from "lucide-react/icons/download";
import { useState } from "react";
import { useLocation } from "wouter";
import { ImportBoard } from "#client/pieces/import-board.tsx";
import { fileName, saveFile } from "#client/pieces/save-file.ts";
import { useBand, useBoardStore, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { exportBoard } from "#shared/exchange/board-json.ts";

const keysWord = (count: number): string => (count === 1 ? "1 entry" : `${count} entries`);

/** The whole board as a file, and a new board from such a file. */
export const DataSection = () => {
  const store = useBoardStore();
  const { name } = useBand();
  const [{ today }] = useViewpoint();
  const [, go] = useLocation();
  const [said, setSaid] = useState("");
  const save = () => {
    const { text, leftOut } = exportBoard(store.stored, today);
    saveFile(fileName(name, "board", today, "json"), text, "application/json");
    setSaid(
      leftOut.length === 0
        ? "The file is among your downloads."
        : `The file is among your downloads. ${keysWord(leftOut.length)} cannot be written as JSON: ${leftOut
            .slice(0, 3)
            .map(({ map, key }) => `${map}/${key}`)
            .join(", ")}.`,
    );
  };
  return (
    <section aria-labelledby="data">
      <SectionHeading title={<span id="data">Your data</span>} />
      <div className="max-w-2xl">
        <p className="text-quiet">
          One file holds everything: songs, details, statuses, the log, gigs, people, and what was taken off
          the board. Keep one now and then; some browsers clear unused storage after a week.
        </p>
        <div className="mt-3 flex flex-wrap items-center gap-3">
          <Button icon={Download} onClick={save}>
            Save the whole board as JSON
          </Button>
          <span role="status" className="caption">
            {said}
          </span>
        </div>
        <ImportBoard onStarted={({ board }) => go(`~/b/${encodeURIComponent(board)}/board`)} />
      </div>
    </section>
  );
};
