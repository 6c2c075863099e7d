import type { SideValue } from "#shared/board/sides/detail-sides.ts";
import { Knob } from "./knob.tsx";

const KNOBS = [
  ["gain", "Gain"],
  ["volume", "Volume"],
  ["tone", "Tone"],
] as const;
const MOST = 10;
const PICKUPS = ["neck", "middle", "bridge"] as const;

/** A pickup selector: a filled dot where it stands; both = the outer two. */
const Pickup = ({ chosen }: { readonly chosen: NonNullable<SideValue<"tone">["pickup"]> }) => (
  <svg aria-hidden="true" viewBox="0 0 144 60" className="block w-36 text-ink print:w-28">
    {PICKUPS.map((pickup, i) => {
      const on = chosen === pickup || (chosen === "both" && pickup !== "middle");
      return (
        <g key={pickup}>
          <circle
            cx={24 + i * 48}
            cy={20}
            r={7}
            fill={on ? "currentColor" : "none"}
            stroke="currentColor"
            strokeWidth={1.5}
          />
          <text
            x={24 + i * 48}
            y={46}
            textAnchor="middle"
            className={on ? "fill-ink text-[13px] font-semibold" : "fill-quiet text-[13px]"}
          >
            {pickup}
          </text>
        </g>
      );
    })}
  </svg>
);

/** Knobs, pickup and effects. On is filled, off is an outline with a bar: told by shape, not by hue. */
export const ToneDrawing = ({ value }: { readonly value: SideValue<"tone"> }) => (
  <div aria-hidden="true" className="flex flex-wrap items-start gap-x-3 gap-y-2">
    {KNOBS.map(([name, label]) =>
      value[name] === null ? null : <Knob key={name} label={label} value={value[name]} most={MOST} />,
    )}
    {value.pickup === null ? null : <Pickup chosen={value.pickup} />}
    {value.effects.map(({ name, on }) => (
      <span
        key={name}
        className={`inline-flex min-h-8 max-w-full items-center wrap-anywhere gap-2 border px-2 ${on ? "border-ink font-semibold" : "border-control text-quiet"}`}
      >
        <svg aria-hidden="true" viewBox="0 0 12 12" className="w-3">
          <circle
            cx={6}
            cy={6}
            r={4.5}
            fill={on ? "currentColor" : "none"}
            stroke="currentColor"
            strokeWidth={1.5}
          />
        </svg>
        {name} {on ? "on" : "off"}
      </span>
    ))}
  </div>
);
