import type { Author } from "#shared/commands/command.ts";
import { createListeners } from "./listeners.ts";

/** Who this device is on one board; changes when somebody picks their name. */
export interface Identity {
  readonly author: () => Author;
  readonly subscribe: (listener: () => void) => () => void;
  readonly become: (member: string | null) => void;
}

export const createIdentity = (initial: Author): Identity => {
  const listeners = createListeners<"author">();
  let author = initial;
  return {
    author: () => author,
    subscribe: (listener) => listeners.subscribe("author", listener),
    become: (member) => {
      if (author.member === member) return;
      author = { ...author, member };
      listeners.notify(["author"]);
    },
  };
};
