import { useState } from "react";
import { useAct } from "#client/pieces/use-act.ts";
import { Button } from "#client/ui/button.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { BLOCKS_OF_GIG_MAX, type Gig } from "#shared/board/band.ts";
import { reviseGig } from "#shared/commands/plan-gig.ts";
import { blockMinutes } from "#shared/selectors/running-order.ts";

/** `45, 45` → the minutes of each block; a sentence where that cannot be read. */
const readBlocks = (text: string): readonly number[] | string => {
  const parts = text.split(/[,;+\s]+/).filter((part) => part !== "");
  const minutes = parts.map(Number);
  if (parts.length === 0 || minutes.some((each) => !Number.isInteger(each) || each < 1 || each > 600))
    return "Write whole minutes from 1 to 600, one number for each block: 45, 45.";
  return parts.length > BLOCKS_OF_GIG_MAX ? `A night has at most ${BLOCKS_OF_GIG_MAX} blocks.` : minutes;
};

/** The contracted minutes of each block and the talking in it. */
export const BlocksField = ({ gig }: { readonly gig: Gig }) => {
  const act = useAct();
  const [text, setText] = useState(blockMinutes(gig).join(", "));
  const [talk, setTalk] = useState(String(gig.talk));
  const [fault, setFault] = useState("");
  const save = () => {
    const blocks = readBlocks(text);
    const minutes = /^\d{1,2}$/.test(talk.trim()) ? Number(talk) : null;
    if (typeof blocks === "string") return setFault(blocks);
    if (minutes === null) return setFault("Talk is a whole number of minutes from 0 to 99.");
    setFault("");
    const all = blocks.reduce((sum, each) => sum + each, 0);
    act(
      reviseGig,
      { gig: gig.id, blocks: [...blocks], minutes: all, talk: minutes },
      `Blocks: ${blocks.join(" and ")} minutes`,
    );
  };
  return (
    <form
      noValidate
      className="flex flex-wrap items-end gap-4 py-2"
      onSubmit={(event) => {
        event.preventDefault();
        save();
      }}
    >
      <TextField
        className="w-40"
        label="Minutes of each block"
        value={text}
        onChange={setText}
        error={fault === "" ? undefined : fault}
      />
      <TextField
        className="w-40"
        label="Talk in each, minutes"
        inputMode="numeric"
        value={talk}
        onChange={setTalk}
      />
      <Button type="submit">Set</Button>
    </form>
  );
};
