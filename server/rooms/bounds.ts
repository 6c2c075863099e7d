import type { Settings } from "../settings/settings.ts";

/** How much boards and devices may ask of the server; each is a setting, explained there. */
export type RoomBounds = Pick<
  Settings,
  | "frameBytes"
  | "presenceBytes"
  | "bufferedBytes"
  | "framesPerSecond"
  | "bytesPerSecond"
  | "questionsPerSecond"
  | "presencePerSecond"
  | "boardFramesPerSecond"
  | "boardBytesPerSecond"
  | "boardBytes"
  | "gapBytes"
  | "gapSeconds"
  | "foldRows"
  | "foldBytes"
  | "boardsInMemory"
  | "memoryBytes"
>;
