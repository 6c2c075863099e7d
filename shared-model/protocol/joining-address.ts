import { type Id, isId } from "../board/ids.ts";

/** What a joining address carries. */
export interface Joining {
  readonly board: Id;
  readonly secret: string;
}

/**
 * The address a person opens to join a board. The secret stands in the fragment, which browsers never send.
 * `origin` is scheme, host and port, without a slash at the end.
 */
export const joiningAddress = (origin: string, { board, secret }: Joining): string =>
  `${origin}/#/join/${encodeURIComponent(board)}/${encodeURIComponent(secret)}`;

/** Board and secret of a location's fragment (with or without `#`); null when it is not a joining address. */
export const parseJoining = (fragment: string): Joining | null => {
  const match = /^#?\/join\/([^/]+)\/([^/]+)$/.exec(fragment);
  if (match?.[1] === undefined || match[2] === undefined) return null;
  try {
    const board = decodeURIComponent(match[1]);
    return isId(board) ? { board, secret: decodeURIComponent(match[2]) } : null;
  } catch {
    return null;
  }
};

/** The first joining address in a text, such as the message it came in; null when there is none. */
export const joiningIn = (text: string): Joining | null => {
  const found = /\/#(\/join\/[^\s/]+\/[^\s/<>"]+)/.exec(text)?.[1];
  return found === undefined ? null : parseJoining(found.replace(/[.,;:!?)\]]+$/, ""));
};
