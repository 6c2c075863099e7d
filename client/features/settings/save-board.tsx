import Download from "lucide-react/icons/download";
import { useState } from "react";
import { fileName, saveFile } from "#client/pieces/save-file.ts";
import { useBand, useBoardStore, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { exportBoard } from "#shared/exchange/board-json.ts";

const keysWord = (count: number): string => (count === 1 ? "1 entry" : `${count} entries`);

/** The whole board as a file on this device. */
export const SaveBoard = () => {
  const store = useBoardStore();
  const { name } = useBand();
  const [{ today }] = useViewpoint();
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
    <div className="mt-3 flex flex-wrap items-center gap-3">
      <Button icon={Download} onClick={save}>
        Save the whole board as JSON
      </Button>
      <span role="status" className="caption">
        {said}
      </span>
    </div>
  );
};
