import { useCallback, useEffect, useState } from "react";
import { recall, remember } from "#client/pieces/device-memory.ts";
import { useBoardId } from "#client/store/hooks.ts";
import type { MySongs } from "#shared/selectors/my-parts.ts";

export interface News {
  /** Details of a song that came since somebody looked at it on this device. */
  readonly of: (song: string) => readonly string[];
  /** Was not there when this visit began. */
  readonly isNew: (card: string) => boolean;
  /** Counts a song as looked at. */
  readonly look: (song: string) => void;
}

const parse = (text: string | null): ReadonlySet<string> | null => {
  if (text === null) return null;
  try {
    const ids: unknown = JSON.parse(text);
    return Array.isArray(ids) ? new Set(ids.filter((id) => typeof id === "string")) : null;
  } catch {
    return null;
  }
};

/**
 * Which details are new since this device last showed them. Told by id and not by time, because a detail written
 * without signal arrives with an old date. On a first visit nothing is new.
 */
export const useNews = ({ details }: MySongs, member: string): News => {
  const name = `seen.${useBoardId()}.${member}`;
  const [before] = useState(() => parse(recall(name)) ?? new Set([...details.values()].flat()));
  const [seen, setSeen] = useState(before);
  useEffect(() => {
    const known = new Set([...details.values()].flat());
    remember(name, JSON.stringify([...seen].filter((id) => known.has(id))));
  }, [name, seen, details]);
  const look = useCallback(
    (song: string) => {
      const fresh = (details.get(song) ?? []).filter((id) => !seen.has(id));
      if (fresh.length > 0) setSeen(new Set([...seen, ...fresh]));
    },
    [details, seen],
  );
  const isNew = useCallback((card: string) => !before.has(card), [before]);
  return {
    of: (song) => (details.get(song) ?? []).filter((id) => !seen.has(id)),
    isNew,
    look,
  };
};
