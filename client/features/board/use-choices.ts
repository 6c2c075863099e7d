import { useCallback, useState } from "react";
import { useBoardId } from "#client/store/hooks.ts";
import { type BoardChoices, formatChoices, parseChoices } from "#shared/selectors/board-choices.ts";

const KEY = "tightrow.board.";

const remembered = (board: string): BoardChoices => {
  try {
    return parseChoices(window.localStorage.getItem(KEY + board) ?? "");
  } catch {
    return parseChoices("");
  }
};

const remember = (board: string, choices: BoardChoices): void => {
  try {
    const text = formatChoices(choices);
    if (text === "") window.localStorage.removeItem(KEY + board);
    else window.localStorage.setItem(KEY + board, text);
  } catch {
    // Storage is closed to this page: the choice holds as long as it stays open.
  }
};

/**
 * What this device chose to see on the board. Kept between visits, except the search: songs that are hidden by a
 * word nobody remembers would look lost.
 */
export const useChoices = (): readonly [BoardChoices, (choices: BoardChoices) => void] => {
  const board = useBoardId();
  const [choices, setChoices] = useState(() => remembered(board));
  const choose = useCallback(
    (next: BoardChoices) => {
      remember(board, next);
      setChoices(next);
    },
    [board],
  );
  return [choices, choose];
};
