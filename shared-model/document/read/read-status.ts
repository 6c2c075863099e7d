import { isLater, type Status, type StatusMark } from "../../board/status.ts";
import { STATUS_MARK } from "../schema.ts";
import { decodeValue, type IssueLog } from "./decode.ts";

/** All readable marks on one card, by member. */
const marksOf = (
  card: string,
  raw: ReadonlyMap<string, unknown>,
  issues: IssueLog,
): ReadonlyMap<string, readonly StatusMark[]> => {
  const byMember = new Map<string, StatusMark[]>();
  for (const [key, value] of raw) {
    const mark = decodeValue(STATUS_MARK, value, "statuses", `${card}/${key}`, issues);
    if (mark === null) continue;
    const cut = key.indexOf("/");
    const member = key.slice(0, cut);
    const entry = { ...mark, writer: key.slice(cut + 1) };
    const marks = byMember.get(member);
    if (marks === undefined) byMember.set(member, [entry]);
    else marks.push(entry);
  }
  return byMember;
};

/** The status of every player on one card: the latest mark by (at, writer). */
export const readStatuses = (
  card: string,
  raw: ReadonlyMap<string, unknown>,
  issues: IssueLog,
): ReadonlyMap<string, Status> => {
  const statuses = new Map<string, Status>();
  for (const [member, marks] of marksOf(card, raw, issues)) {
    statuses.set(
      member,
      marks.reduce((latest, mark) => (isLater(mark, latest) ? mark : latest)),
    );
  }
  return statuses;
};
