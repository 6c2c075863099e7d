import { useId, useState } from "react";
import { useAuthor, useBand } from "#client/store/hooks.ts";
import { Button, type ControlSize, controlHeight } from "#client/ui/button.tsx";
import { classNames } from "#client/ui/class-names.ts";
import { Dialog } from "#client/ui/dialog.tsx";
import { StatusButton } from "#client/ui/status-button.tsx";
import type { SongFile } from "#shared/board/board.ts";
import type { Card } from "#shared/board/card.ts";
import { LEVEL_WORDS, type Level } from "#shared/board/status.ts";
import { markDetail } from "#shared/commands/mark-detail.ts";
import { capital, cardName } from "#shared/readiness/names.ts";
import { markRefusal, nextStep, reasonSentence } from "#shared/selectors/marking.ts";
import type { Standing } from "#shared/selectors/part-view.ts";
import { useAct } from "./use-act.ts";
import { useNames } from "./use-names.ts";

export interface StatusControlProps {
  readonly standing: Standing;
  /** null = the part itself. */
  readonly card: Card | null;
  readonly song: Pick<SongFile, "sections">;
  readonly size?: ControlSize;
  /** Said beside it while there is no reason to give. */
  readonly note?: string | undefined;
  /** Leaves the sentence out, where the screen says it elsewhere. */
  readonly hideReason?: boolean;
}

const StillTrue = (props: {
  readonly about: string;
  readonly reason: string | null;
  /** It slipped or was changed since, so it has to be won back. */
  readonly lost: boolean;
  readonly back: Level;
  readonly onMark: (level: Level) => void;
  readonly onClose: () => void;
}) => (
  <Dialog
    open
    onClose={props.onClose}
    title="Still locked in?"
    actions={
      <>
        <Button tone="main" data-first-focus onClick={() => props.onMark(3)}>
          {props.lost ? "Locked in again" : "Still true"}
        </Button>
        <Button onClick={() => props.onMark(props.back)}>Step back to {LEVEL_WORDS[props.back]}</Button>
        <Button tone="quiet" onClick={props.onClose}>
          Leave it
        </Button>
      </>
    }
  >
    <p>{props.about}</p>
    {props.reason === null ? null : <p className="caption mt-2">{props.reason}</p>}
  </Dialog>
);

/**
 * One player's status on one detail or on the part itself. A tap goes one step up and can be undone; on *locked in*
 * it asks first. Where this device may not mark the player it says why.
 */
export const StatusControl = ({ standing, card, song, size = "plain", ...props }: StatusControlProps) => {
  const act = useAct();
  const author = useAuthor();
  const names = useNames();
  const { timeZone } = useBand();
  const noteId = useId();
  const [asking, setAsking] = useState(false);
  const { member, level, statusId } = standing;
  const refusal = markRefusal(author, standing, names);
  const reason = reasonSentence(standing, names, timeZone);
  const sentences = [reason, refusal].filter((sentence) => sentence !== null).join(" ");
  const shown = props.hideReason ? "" : sentences || (props.note ?? "");
  const what = card === null ? "The part itself" : cardName(song, card);
  const whose = member === null || member === author.member ? "" : ` (${names.member(member)})`;

  const mark = (to: Level) => {
    setAsking(false);
    if (member !== null)
      act(markDetail, { card: statusId, member, level: to }, `${capital(LEVEL_WORDS[to])}: ${what}${whose}`);
  };
  const tap = () => {
    const step = nextStep(standing);
    if (step.is === "ask") setAsking(true);
    else mark(step.level);
  };

  return (
    <div
      // The button holds still, however long the sentence: beside it, or on a stand under it.
      className={classNames("flex min-w-0 items-start", size === "room" ? "flex-col gap-1" : "gap-3")}
    >
      <StatusButton
        level={level}
        slipped={standing.slipped}
        waiting={standing.waiting}
        word={LEVEL_WORDS[level]}
        about={`${what}${whose}`}
        size={size}
        disabled={refusal !== null}
        aria-describedby={shown === "" ? undefined : noteId}
        onClick={tap}
      />
      {shown === "" ? null : (
        <p
          id={noteId}
          className={classNames(
            "caption min-w-0",
            size === "plain" && `flex items-center ${controlHeight("plain")}`,
          )}
        >
          {shown}
        </p>
      )}
      {asking ? (
        <StillTrue
          about={`${what}${whose}`}
          reason={reason}
          lost={level < 3 && !standing.waiting}
          back={backOf(standing)}
          onMark={mark}
          onClose={() => setAsking(false)}
        />
      ) : null}
    </div>
  );
};

const backOf = (standing: Standing): Level => {
  const step = nextStep(standing);
  return step.is === "ask" ? step.back : 2;
};
