import * as v from "valibot";
import { orderAfterAll } from "../document/order-plan.ts";
import { id, name, voice } from "../document/schema.ts";
import { chairExists, firstOf, nameIsFree, personExists } from "./checks.ts";
import { defineCommand, refuse } from "./command.ts";
import { setFields } from "./fields.ts";

/** Adds a member or a dep, and gives them the chairs they hold. */
export const addPerson = defineCommand({
  name: "addPerson",
  schema: v.object({ name, dep: v.optional(v.boolean(), false), chairs: v.optional(v.array(id), []) }),
  check: (board, { name, chairs }) =>
    firstOf(
      nameIsFree("person", name, board.people.values()),
      ...chairs.map((chair) => chairExists(board, chair)),
    ),
  write: (set, { name, dep, chairs }, { newId }, board) => {
    const person = newId();
    setFields(set, "people", [person], {
      name,
      dep,
      order: orderAfterAll(board.people.values()),
      deleted: false,
    });
    for (const chair of chairs) set("chairs", `${chair}/holder`, person);
  },
});

/** Corrects a name, says whether somebody is a dep, or writes down what they can sing: each for themselves, or a leader. */
export const revisePerson = defineCommand({
  name: "revisePerson",
  schema: v.object({
    person: id,
    name: v.optional(name),
    dep: v.optional(v.boolean()),
    voice: v.optional(v.nullable(voice)),
  }),
  check: (board, { person, name, voice }, { author }) =>
    firstOf(
      personExists(board, person),
      name === undefined ? null : nameIsFree("person", name, board.people.values(), person),
      voice === undefined || author.role === "leader" || author.member === person
        ? null
        : refuse("forbidden", "What somebody can sing is written down by themselves or by a leader."),
    ),
  write: (set, { person, ...fields }) => setFields(set, "people", [person], fields),
});
