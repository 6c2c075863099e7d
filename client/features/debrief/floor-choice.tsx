import { Select } from "#client/ui/select.tsx";
import { FLOOR_DID } from "#shared/board/band.ts";
import type { DebriefRow } from "#shared/selectors/debrief.ts";
import type { Logging } from "./use-log.ts";

const LABELS = { "": "the floor?", filled: "floor filled", stayed: "floor stayed", emptied: "floor emptied" };
const OPTIONS = FLOOR_DID.map((value) => ({ value, label: LABELS[value] }));

export interface FloorChoiceProps {
  readonly row: DebriefRow;
  readonly onChange: Logging["tellFloor"];
}

/** What one song did to the dance floor. */
export const FloorChoice = ({ row, onChange }: FloorChoiceProps) => (
  <Select
    label={`The floor at ${row.title}`}
    hideLabel
    className="w-36"
    value={row.floorDid}
    options={OPTIONS}
    onChange={(floorDid) => onChange(row, floorDid)}
  />
);
