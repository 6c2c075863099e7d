import type { Place, PresenceScreen } from "#client/store/presence.ts";
import type { Board } from "#shared/board/board.ts";

const SCREEN_WORDS: { readonly [S in PresenceScreen]: string } = {
  board: "at the board",
  part: "at a part",
  song: "at a song",
  parts: "at their own parts",
  room: "in the room",
  elsewhere: "on another page",
};

/** Where somebody is, in words. What the board does not know is left out. */
export const placeWords = (
  { songs, chairs }: Pick<Board, "songs" | "chairs">,
  { screen, song, chair }: Place,
): string => {
  const title = songs.get(song ?? "")?.song.title;
  if (title === undefined) return SCREEN_WORDS[screen];
  const at = screen === "room" ? `in the room, ${title}` : title;
  const name = chairs.find(({ id }) => id === chair)?.name;
  return name === undefined ? at : `${at}, ${name}`;
};
