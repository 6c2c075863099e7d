import type { Id } from "#shared/board/ids.ts";
import type { Storage } from "../storage/storage.ts";
import type { HistoryRange, StoredUpdate } from "../storage/update-log.ts";

const ROWS_MAX = 1000;
const BYTES_MAX = 4 * 1024 * 1024;
/** Rows read at once: what a page may hold beyond its bounds before it is cut. */
const CHUNK = 16;

/**
 * A page of a document's rows, oldest first: the last ones of the range, as many as fit, but at least one. The page
 * before it is asked for with `before` = its first row; an empty page is the end.
 */
export const readHistory = async (
  log: Pick<Storage, "history">,
  document: Id,
  { limit = ROWS_MAX, ...range }: HistoryRange,
): Promise<readonly StoredUpdate[]> => {
  const most = Math.min(limit, ROWS_MAX);
  let page: readonly StoredUpdate[] = [];
  let bytes = 0;
  while (page.length < most) {
    const before = page[0]?.seq ?? range.before;
    const wanted = { ...range, ...(before === undefined ? {} : { before }) };
    const chunk = await log.history(document, { ...wanted, limit: Math.min(CHUNK, most - page.length) });
    if (chunk.length === 0) return page;
    const fits: StoredUpdate[] = [];
    for (const row of chunk.toReversed()) {
      bytes += row.bytes.length;
      if (bytes > BYTES_MAX && page.length + fits.length > 0) return [...fits.reverse(), ...page];
      fits.push(row);
    }
    page = [...fits.reverse(), ...page];
  }
  return page;
};
