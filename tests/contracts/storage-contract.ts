import type { Storage } from "#server/storage/storage.ts";
import { boardTablesContract } from "./board-tables-contract.ts";
import { compactionContract } from "./compaction-contract.ts";
import { membersContract } from "./members-contract.ts";
import { updateLogContract } from "./update-log-contract.ts";

/** What every storage must do; `open` answers an empty one that is closed by the caller of the suite. */
export const storageContract = (open: () => Promise<Storage>): void => {
  updateLogContract(open);
  compactionContract(open);
  boardTablesContract(open);
  membersContract(open);
};
