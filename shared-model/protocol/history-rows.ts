/**
 * Rows of a document's log as they travel: one byte for the layout, then per row, all numbers big-endian,
 * seq (float64), at (float64), device (text), member (text), length (uint32) and the update itself. A text is its length
 * in UTF-16 units (uint16) and those units; a missing member has the length 0xffff.
 */

/** One update as the server stored it, or a snapshot that stands for all before it. */
export interface SentRow {
  readonly seq: number;
  /** Moment (ms, server clock) it was stored. */
  readonly at: number;
  /** Device that sent it; `server` for what the server wrote itself. */
  readonly device: string;
  /** Person of that device at the time; null = nobody had said. */
  readonly member: string | null;
  /** Yjs update, encoding version 1. */
  readonly bytes: Uint8Array;
}

const LAYOUT = 1;
const NOBODY = 0xffff;
/** Two float64, two uint16, one uint32. */
const FIXED_BYTES = 8 + 8 + 2 + 2 + 4;

const sizeOf = ({ device, member, bytes }: SentRow): number =>
  FIXED_BYTES + 2 * device.length + 2 * (member?.length ?? 0) + bytes.length;

/** Throws a RangeError for a device or member of 65,535 characters or more, which no identifier has. */
export const encodeHistoryRows = (rows: readonly SentRow[]): Uint8Array<ArrayBuffer> => {
  const out = new Uint8Array(rows.reduce((sum, row) => sum + sizeOf(row), 1));
  const view = new DataView(out.buffer);
  let at = 0;
  const text = (value: string | null): void => {
    if (value !== null && value.length >= NOBODY) throw new RangeError("This name is too long to be sent");
    view.setUint16(at, value?.length ?? NOBODY);
    at += 2;
    for (let i = 0; i < (value?.length ?? 0); i++, at += 2) view.setUint16(at, value?.charCodeAt(i) ?? 0);
  };
  view.setUint8(at++, LAYOUT);
  for (const row of rows) {
    view.setFloat64(at, row.seq);
    view.setFloat64(at + 8, row.at);
    at += 16;
    text(row.device);
    text(row.member);
    view.setUint32(at, row.bytes.length);
    out.set(row.bytes, at + 4);
    at += 4 + row.bytes.length;
  }
  return out;
};

/** The rows, over the same memory as `bytes`; null when they are cut short or of another layout. */
export const decodeHistoryRows = (bytes: Uint8Array): readonly SentRow[] | null => {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let at = 0;
  const text = (): string | null => {
    const length = view.getUint16(at);
    at += 2;
    if (length === NOBODY) return null;
    let value = "";
    for (let i = 0; i < length; i++, at += 2) value += String.fromCharCode(view.getUint16(at));
    return value;
  };
  const row = (): SentRow => {
    const seq = view.getFloat64(at);
    const moment = view.getFloat64(at + 8);
    at += 16;
    const device = text() ?? "";
    const member = text();
    const length = view.getUint32(at);
    at += 4 + length;
    if (at > bytes.length) throw new RangeError("Cut short");
    return { seq, at: moment, device, member, bytes: bytes.subarray(at - length, at) };
  };
  try {
    if (view.getUint8(at++) !== LAYOUT) return null;
    const rows: SentRow[] = [];
    while (at < bytes.length) rows.push(row());
    return rows;
  } catch {
    return null;
  }
};
