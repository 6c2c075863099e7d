import { useBand, useViewpoint, useWholeBoard } from "#client/store/hooks.ts";
import type { Gig } from "#shared/board/band.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { type CallFact, callSheet } from "#shared/selectors/call-sheet.ts";

const Facts = ({ title, facts }: { readonly title: string; readonly facts: readonly CallFact[] }) => (
  <dl aria-label={title} className="grid grid-cols-[auto_1fr] content-start gap-x-4 gap-y-1">
    {facts.map(({ label, text }) => (
      <div key={label} className="contents">
        <dt className="text-quiet">{label}</dt>
        <dd className="font-semibold">{text}</dd>
      </div>
    ))}
  </dl>
);

/** The gig on paper, for everybody who plays it. Mounted while the page is printed. */
export const CallSheet = ({ gig }: { readonly gig: Gig }) => {
  const board = useWholeBoard();
  const band = useBand();
  const [{ today }] = useViewpoint();
  const { facts, lineUp, blocks } = callSheet(board, gig);
  return (
    <article data-call-sheet className="text-[10.5pt] leading-snug">
      <header className="mb-3 border-b-2 border-ink pb-1">
        <p>
          {band.name} · {dayWords(gig.date, { weekday: true, today })}
        </p>
        <h1 className="text-[20pt] font-semibold leading-tight">
          {gig.name || gig.place || "A gig without a name"}
        </h1>
      </header>
      <div className="mb-4 grid grid-cols-2 gap-x-10">
        <Facts title="Agreed" facts={facts} />
        <Facts title="Line-up" facts={lineUp} />
      </div>
      {blocks.map(({ length, rows }, b) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a block is its place
        <table key={b} className="mb-3 w-full text-left">
          <caption className="border-b border-ink pb-0.5 text-left">
            <span className="font-semibold">{blocks.length === 1 ? "Running order" : `Block ${b + 1}`}</span>{" "}
            <span className="text-quiet">{length}</span>
          </caption>
          <tbody>
            {rows.map(({ song, title, startsAt, played, lead }) => (
              <tr key={song} className="border-b border-line">
                <td className="w-14 pr-3 text-right text-quiet">{startsAt}</td>
                <th scope="row" className="py-0.5 pr-3 font-semibold">
                  {title}
                </th>
                <td className="pr-3">{played}</td>
                <td className="text-quiet">{lead}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ))}
    </article>
  );
};
