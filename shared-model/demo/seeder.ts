import type { Board } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { type Command, idsFrom } from "../commands/command.ts";
import type { Runner } from "../commands/runner.ts";
import type { PersonCode } from "./demo-data.ts";
import { personId } from "./demo-ids.ts";
import { LEADER } from "./people.ts";
import type { SeasonCalendar } from "./season-calendar.ts";

/** Does on a board what the demo band did, as if each member had held their own phone at the time. */
export interface Seeder {
  readonly calendar: SeasonCalendar;
  readonly board: () => Board;
  /** Runs one command by one person's phone at a moment (ms). Throws on a refusal: the data is wrong then. */
  readonly as: <A, Given>(
    person: PersonCode,
    at: number,
    command: Command<A, Given>,
    args: NoInfer<Given>,
    id?: Id,
  ) => void;
}

/** The device a person writes with. */
export const phoneOf = (person: PersonCode): Id => `demo-phone-${person}`;

export const createSeeder = (runner: Runner, calendar: SeasonCalendar): Seeder => {
  let runs = 0;
  return {
    calendar,
    board: runner.board,
    as: (person, at, command, args, id) => {
      runs += 1;
      const run = id ?? `demo-run-${runs}`;
      const done = runner.run(command, args, {
        id: run,
        now: at,
        newId: idsFrom(run),
        author: {
          member: personId(person),
          writer: phoneOf(person),
          role: person === LEADER ? "leader" : "member",
        },
      });
      if (!done.ok) throw new Error(`The demo's ${command.name} was refused: ${done.error.sentence}`);
    },
  };
};
