import { wholeNumber } from "./parsers.ts";
import { setting } from "./setting.ts";

const KIB = 1024;
const MIB = 1024 * KIB;
const GIB = 1024 * MIB;
const MANY = 1_000_000;

/**
 * How much boards and devices may ask of the server. Rates are what may go on for ever; a minute's worth may come at
 * once, so that a phone that was away for a month is no flood. Common practice, no published source for the numbers.
 */
export const BOUNDS = {
  frameBytes: setting(
    "FRAME_BYTES",
    `${8 * MIB}`,
    wholeNumber(1024, 64 * MIB),
    "Longest sync message, in bytes.",
  ),
  presenceBytes: setting(
    "PRESENCE_BYTES",
    "4096",
    wholeNumber(64, 65_536),
    "Longest presence of one device, in bytes.",
  ),
  bufferedBytes: setting(
    "BUFFERED_BYTES",
    `${16 * MIB}`,
    wholeNumber(65_536, GIB),
    "Bytes that may wait for a slow device before it is sent away to come again.",
  ),
  framesPerSecond: setting(
    "FRAMES_PER_SECOND",
    "100",
    wholeNumber(1, MANY),
    "Messages a connection may send in a second for ever; a minute's worth may come at once.",
  ),
  bytesPerSecond: setting(
    "BYTES_PER_SECOND",
    `${MIB}`,
    wholeNumber(1024, GIB),
    "Bytes a connection may send in a second for ever; a minute's worth may come at once.",
  ),
  questionsPerSecond: setting(
    "QUESTIONS_PER_SECOND",
    "2",
    wholeNumber(1, MANY),
    "How often a connection may ask in a second for what it lacks or what is stored; a minute's worth at once.",
  ),
  presencePerSecond: setting(
    "PRESENCE_PER_SECOND",
    "10",
    wholeNumber(1, MANY),
    "How often a connection may say in a second where it is; what comes faster is left out.",
  ),
  boardFramesPerSecond: setting(
    "BOARD_FRAMES_PER_SECOND",
    "500",
    wholeNumber(1, MANY),
    "Messages all devices of a board may send in a second for ever; a minute's worth may come at once.",
  ),
  boardBytesPerSecond: setting(
    "BOARD_BYTES_PER_SECOND",
    `${4 * MIB}`,
    wholeNumber(1024, GIB),
    "Bytes all devices of a board may send in a second for ever; a minute's worth may come at once.",
  ),
  boardBytes: setting(
    "BOARD_BYTES",
    `${64 * MIB}`,
    wholeNumber(KIB, GIB),
    "Largest board, in bytes as it is stored. A larger one is read, and takes no more changes.",
  ),
  gapBytes: setting(
    "GAP_BYTES",
    `${4 * MIB}`,
    wholeNumber(KIB, GIB),
    "Bytes of a board's changes that may wait for an earlier change that has not come.",
  ),
  gapSeconds: setting(
    "GAP_SECONDS",
    "60",
    wholeNumber(1, 86_400),
    "How long changes may wait for an earlier change that has not come.",
  ),
  connections: setting(
    "CONNECTIONS",
    "2000",
    wholeNumber(1, MANY),
    "Devices that may be connected at the same time.",
  ),
  boardConnections: setting(
    "BOARD_CONNECTIONS",
    "200",
    wholeNumber(1, MANY),
    "Devices that may be connected to one board at the same time.",
  ),
  addressConnections: setting(
    "ADDRESS_CONNECTIONS",
    "100",
    wholeNumber(1, MANY),
    "Connections one network address may have at the same time. This machine's own are not counted.",
  ),
  foldRows: setting(
    "FOLD_ROWS",
    "500",
    wholeNumber(1, MANY),
    "Stored changes after which a board's are folded into a snapshot, in a quiet moment.",
  ),
  foldBytes: setting(
    "FOLD_BYTES",
    `${MIB}`,
    wholeNumber(1, GIB),
    "Bytes of stored changes after which a board's are folded into a snapshot, in a quiet moment.",
  ),
  boardsInMemory: setting(
    "BOARDS_IN_MEMORY",
    "500",
    wholeNumber(1, MANY),
    "Boards whose document is kept in memory; those used longest ago are served from the disk again.",
  ),
  memoryBytes: setting(
    "MEMORY_BYTES",
    `${64 * MIB}`,
    wholeNumber(KIB, 64 * GIB),
    "Bytes, as stored, of all documents kept in memory, which take about ten times as much there.",
  ),
} as const;
