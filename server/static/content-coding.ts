import { promisify } from "node:util";
import { brotliCompress, constants, gzip } from "node:zlib";

/** Content codings of HTTP that the server can send. */
export type Coding = "br" | "gzip" | "identity";

const COMPRESSIBLE = new Set([".html", ".js", ".css", ".json", ".map", ".webmanifest", ".svg", ".txt"]);
/** Of 11: nearly as small, at a fraction of the time; this runs at each start when the build left no twins. */
const BROTLI_QUALITY = 8;

/** True for extensions of text; images and fonts are compressed already. */
export const isCompressible = (extension: string): boolean => COMPRESSIBLE.has(extension);

export const compress = (content: Buffer, coding: "br" | "gzip"): Promise<Buffer> =>
  coding === "gzip"
    ? promisify(gzip)(content)
    : promisify(brotliCompress)(content, { params: { [constants.BROTLI_PARAM_QUALITY]: BROTLI_QUALITY } });

/** The smallest coding there is that the client takes (RFC 9110, section 12.5.3; only a weight of 0 is heeded). */
export const bestCoding = (accepted: string | undefined, bodies: ReadonlyMap<Coding, Buffer>): Coding => {
  const names = new Set<string>();
  for (const part of (accepted ?? "").split(",")) {
    const [name = "", ...parameters] = part.split(";").map((piece) => piece.trim().toLowerCase());
    if (!parameters.some((parameter) => /^q=0(\.0*)?$/.test(parameter))) names.add(name);
  }
  return (["br", "gzip"] as const).find((coding) => names.has(coding) && bodies.has(coding)) ?? "identity";
};
