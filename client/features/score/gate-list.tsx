import Check from "lucide-react/icons/check";
import Minus from "lucide-react/icons/minus";
import X from "lucide-react/icons/x";
import { useState } from "react";
import { namedLink } from "#client/pieces/links.ts";
import { useAct } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor, useViewpoint } from "#client/store/hooks.ts";
import { readyOf } from "#client/store/ready-of.ts";
import type { SongView } from "#client/store/song-view.ts";
import { Button } from "#client/ui/button.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { waiveGate } from "#shared/commands/seat-for-gig.ts";
import type { Obstacle } from "#shared/readiness/gate-answer.ts";
import type { Names } from "#shared/readiness/names.ts";
import { type GateLine, gateLines } from "#shared/selectors/gate-lines.ts";
import { WaiveDialog } from "./waive-dialog.tsx";

const SIGNS = { ok: Check, waived: Minus, no: X } as const;
const STANDS = { ok: "ok", waived: "waived", no: "no" } as const;

const ObstacleLink = ({ obstacle }: { readonly obstacle: Obstacle }) => {
  const href = useHref();
  return (
    <TextLink standing href={href(namedLink(obstacle.names))}>
      {obstacle.sentence}
    </TextLink>
  );
};

/** How many things in the way of one gate are listed at once. */
const LISTED = 1;

const Obstacles = ({ line }: { readonly line: GateLine }) => {
  const [all, setAll] = useState(false);
  const shown = all ? line.obstacles : line.obstacles.slice(0, LISTED);
  const rest = line.obstacles.length - shown.length;
  return (
    <>
      <ul>
        {shown.map((obstacle) => (
          <li key={`${obstacle.sentence} ${obstacle.names.chair ?? ""} ${obstacle.names.member ?? ""}`}>
            <ObstacleLink obstacle={obstacle} />
          </li>
        ))}
      </ul>
      {rest > 0 ? (
        <Button tone="quiet" onClick={() => setAll(true)}>
          {rest === 1 ? "and one more" : `and ${rest} more`}
        </Button>
      ) : null}
    </>
  );
};

const Gate = (props: {
  readonly line: GateLine;
  readonly names: Names;
  /** The leader may let it pass; null = not on this device, or without a gig. */
  readonly onWaive: (() => void) | null;
  readonly onTakeBack: (() => void) | null;
}) => {
  const { line, names } = props;
  const Sign = SIGNS[line.stands];
  return (
    <li className="flex gap-3 border-b border-line py-2">
      <Sign aria-hidden="true" size={20} strokeWidth={2} className="mt-0.5" />
      <div className="min-w-0 flex-1">
        <h3 className="font-semibold">
          {line.heading}: {STANDS[line.stands]}
        </h3>
        {line.stands === "ok" ? <p className="text-quiet">{line.sentence}</p> : <Obstacles line={line} />}
        {line.waiver === null ? null : (
          <p className="text-small">
            Waived by {names.member(line.waiver.by)}
            {line.waiver.note === "" ? "." : `: ${line.waiver.note}`}
          </p>
        )}
      </div>
      {line.stands === "no" && props.onWaive !== null ? (
        <Button tone="quiet" onClick={props.onWaive} aria-label={`Waive: ${line.heading}`}>
          Waive
        </Button>
      ) : null}
      {line.stands === "waived" && props.onTakeBack !== null ? (
        <Button tone="quiet" onClick={props.onTakeBack} aria-label={`Take back: ${line.heading}`}>
          Take back
        </Button>
      ) : null}
    </li>
  );
};

/** The six gates between the song and the stage. The leader may let one pass, by name and with a note. */
export const GateList = ({ view }: { readonly view: SongView }) => {
  const act = useAct();
  const { role } = useAuthor();
  const [{ gig }] = useViewpoint();
  const [asking, setAsking] = useState<GateLine | null>(null);
  const song = view.file.song;
  const waive = (line: GateLine, note: string, withdrawn: boolean): void => {
    if (gig === null) return;
    const label = `${withdrawn ? "Asked again" : "Waived"} for ${song.title}: ${line.heading}`;
    act(waiveGate, { gig: gig.id, song: song.id, gate: line.gate, note, withdrawn }, label);
  };
  const leads = role === "leader" && gig !== null;
  return (
    <>
      <ul>
        {gateLines(readyOf(view)).map((line) => (
          <Gate
            key={line.gate}
            line={line}
            names={view.names}
            onWaive={leads ? () => setAsking(line) : null}
            onTakeBack={leads ? () => waive(line, line.waiver?.note ?? "", true) : null}
          />
        ))}
      </ul>
      {asking === null ? null : (
        <WaiveDialog
          line={asking}
          onClose={() => setAsking(null)}
          onWaive={(note) => {
            waive(asking, note, false);
            setAsking(null);
          }}
        />
      )}
    </>
  );
};
