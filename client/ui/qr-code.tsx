import { useEffect, useState } from "react";

export interface QrCodeProps {
  /** What the code says: an address. */
  readonly text: string;
  /** What it opens, for those who do not see it. */
  readonly label: string;
  /** Edge in px, quiet zone included. */
  readonly size?: number;
}

/** Width of the light border in modules (ISO/IEC 18004 asks for four). */
const QUIET_ZONE = 4;

interface Modules {
  readonly edge: number;
  readonly path: string;
}

const toModules = (rows: readonly (readonly boolean[])[]): Modules => ({
  edge: rows.length,
  path: rows.flatMap((row, y) => row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : ""))).join(""),
});

/** A QR code, black on white in either theme because many readers refuse it inverted. Its encoder loads on demand. */
export const QrCode = ({ text, label, size = 240 }: QrCodeProps) => {
  const [modules, setModules] = useState<Modules | null>(null);
  useEffect(() => {
    let current = true;
    void import("uqr").then(({ encode }) => {
      if (current) setModules(toModules(encode(text, { ecc: "M", border: QUIET_ZONE }).data));
    });
    return () => {
      current = false;
    };
  }, [text]);
  const edge = modules?.edge ?? 1;
  return (
    <svg
      role="img"
      aria-label={label}
      width={size}
      height={size}
      viewBox={`0 0 ${edge} ${edge}`}
      shapeRendering="crispEdges"
      className="h-auto max-w-full forced-color-adjust-none"
    >
      <rect width={edge} height={edge} fill="#fff" />
      {modules ? <path d={modules.path} fill="#000" /> : null}
    </svg>
  );
};
