import type { BoardTables } from "./board-tables.ts";
import type { UpdateLog } from "./update-log.ts";

/** Everything the server keeps, behind one interface: the log of every document, and the tables of who belongs. */
export interface Storage extends UpdateLog, BoardTables {
  /** Bytes everything takes on the disk, or an estimate where there is no disk. */
  size(): number;
  /** Flushes and lets go of files. The storage cannot be used afterwards. */
  close(): Promise<void>;
}

/** The disk said no: full, read-only, broken. What was asked for did not happen; asking again later may work. */
export class StorageRefusal extends Error {
  override readonly name = "StorageRefusal";
}

/** The storage cannot be opened at all; the message is a sentence for the person who starts the server. */
export class StorageUnavailable extends Error {
  override readonly name = "StorageUnavailable";
}
