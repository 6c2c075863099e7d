import { createContext, useContext } from "react";
import type { OpenBoard } from "./use-open-board.ts";

/** The open board with its session, for the parts of the app that talk to the server. */
export const OpenBoardContext = createContext<OpenBoard | null>(null);

/** Throws outside a board. */
export const useOpenBoardHere = (): OpenBoard => {
  const open = useContext(OpenBoardContext);
  if (open === null) throw new Error("No board is open here.");
  return open;
};
