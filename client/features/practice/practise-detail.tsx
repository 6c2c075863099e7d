import { useMemo } from "react";
import { useLocation } from "wouter";
import { AwakeButton } from "#client/pieces/awake-button.tsx";
import { DrawnView } from "#client/pieces/drawn-view.tsx";
import { practiceLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { useAuthor, useBoardStore } from "#client/store/hooks.ts";
import { useStand } from "#client/store/presence-hooks.ts";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { formatWhere } from "#shared/board/where.ts";
import { clickGround } from "#shared/selectors/practice-click.ts";
import { partnersSentence } from "#shared/selectors/practice-list.ts";
import { outcomeOf, type Sitting } from "#shared/selectors/practice-sitting.ts";
import { BreakNote, usePracticeTime } from "./break-note.tsx";
import { CareNote } from "./care-note.tsx";
import { ClickPanel } from "./click-panel.tsx";
import { OutcomeBar } from "./outcome-bar.tsx";
import { RestOfPart } from "./rest-of-part.tsx";
import { useClick } from "./use-click.ts";
import { type PracticeDetail, usePracticeDetail } from "./use-detail.ts";
import { useSitting } from "./use-sitting.ts";

export interface PractiseDetailProps {
  readonly song: string;
  readonly card: string;
}

/** One detail with a click, made to be read from where one plays. */
export const PractiseDetail = ({ song, card }: PractiseDetailProps) => {
  const { member } = useAuthor();
  const detail = usePracticeDetail(song, card, member ?? "");
  useStand("parts", song, detail?.line.standings[0]?.chair ?? null);
  return (
    <div className="in-room max-w-3xl">
      {member === null || detail === null ? (
        <NotMine />
      ) : (
        <Practising key={card} member={member} detail={detail} />
      )}
    </div>
  );
};

const NotMine = () => {
  const href = useHref();
  return (
    <>
      <PageHeading title="Practice" />
      <EmptyState
        title="This detail is not on your parts"
        action={
          <TextLink standing href={href(practiceLink())}>
            What to practise
          </TextLink>
        }
      >
        It was taken off the board, somebody else plays it now, or this device does not know whose it is.
      </EmptyState>
    </>
  );
};

interface PractisingProps {
  readonly member: string;
  readonly detail: PracticeDetail;
}

const Practising = ({ member, detail }: PractisingProps) => {
  const { file, line } = detail;
  const { card } = line;
  const [sitting, change] = useSitting(member);
  usePracticeTime(change);
  const chair = line.standings[0]?.chair ?? "";
  const ground = useMemo(() => clickGround(file, card, chair), [file, card, chair]);
  const click = useClick(ground, ground.tempo);
  const names = useNames();
  const { at, goOn } = useWayOn(sitting, detail);
  const partners = partnersSentence(line, names);
  return (
    <>
      <PageHeading title={file.song.title} above={at === null ? "Practice" : `Practice · ${at}`} />
      <BreakNote played={sitting.played} onChange={change} />
      <p className="text-quiet">
        <span className="text-ink">{formatWhere(card.where, file.sections)}</span> · {card.weight}
        {card.kind === "general" ? "" : ` · ${card.kind}`}
      </p>
      <p className="text-display laptop:text-figure">{card.text || "a detail without words"}</p>
      {card.right === "" ? null : <p className="mt-1 text-title">→ {card.right}</p>}
      <DrawnView card={card} song={file} large />
      {partners === null ? null : <p className="mt-2 text-quiet">{partners}</p>}
      <ClickPanel click={click} ground={ground}>
        <OutcomeBar file={file} line={line} member={member} onDone={goOn} />
      </ClickPanel>
      <AwakeButton />
      <RestOfPart song={file.song.id} card={card.id} member={member} />
      <CareNote />
    </>
  );
};

/** Where a detail stands in today's list, and the way to the next one that nothing was said of. */
const useWayOn = (
  { items, day, member }: Sitting,
  { line }: PracticeDetail,
): { readonly at: string | null; readonly goOn: () => void } => {
  const store = useBoardStore();
  const [, go] = useLocation();
  const index = items.findIndex(({ card }) => card === line.card.id);
  return {
    at: index < 0 ? null : `${index + 1} of ${items.length}`,
    goOn: () => {
      const { songs } = store.board();
      const isOpen = ({ song, card }: (typeof items)[number]): boolean =>
        songs.get(song)?.cards.some(({ id }) => id === card) === true &&
        outcomeOf(songs.get(song), card, member, day) === null;
      const next = index < 0 ? undefined : items.find(isOpen);
      go(next === undefined ? practiceLink() : practiceLink(next.song, next.card));
    },
  };
};
