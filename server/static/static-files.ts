import { createHash } from "node:crypto";
import { readdir, readFile, stat } from "node:fs/promises";
import type { IncomingMessage, ServerResponse } from "node:http";
import { extname, join, relative, sep } from "node:path";
import { setSecurityHeaders } from "../headers.ts";
import { bestCoding, type Coding, compress, isCompressible } from "./content-coding.ts";

/** Answers every GET and HEAD that the API left. Never rejects for what a client sends. */
export type StaticFiles = (request: IncomingMessage, response: ServerResponse) => Promise<void>;

interface StaticFile {
  readonly type: string;
  readonly cache: string;
  readonly etag: string;
  readonly bodies: ReadonlyMap<Coding, Buffer>;
}

const TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".map": "application/json; charset=utf-8",
  ".webmanifest": "application/manifest+json; charset=utf-8",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".ico": "image/x-icon",
  ".woff2": "font/woff2",
  ".txt": "text/plain; charset=utf-8",
};

const INDEX = "/index.html";
/** The build puts the hash of the content into these names. */
const HASHED = "/assets/";
const NOT_BUILT = "The client is not built yet. Run: npm run build\n";

/**
 * The built client, read into memory once. Requests only look up a table of the paths that were found, so no path can
 * lead out of the folder. Paths without an extension are the page's own addresses and get the page.
 */
export const loadStaticFiles = async (folder: string, overTls: boolean): Promise<StaticFiles> => {
  const files = await readFolder(folder);
  return async (request, response) => {
    setSecurityHeaders(response, overTls);
    if (request.method !== "GET" && request.method !== "HEAD") {
      response.setHeader("Allow", "GET, HEAD");
      return sendText(response, 405, "This address can only be read.\n");
    }
    const path = (request.url ?? "/").split("?", 1)[0] ?? "/";
    const file = files.get(path) ?? (extname(path) === "" ? files.get(INDEX) : undefined);
    if (file !== undefined) send(request, response, file);
    else if (files.has(INDEX)) sendText(response, 404, "There is nothing at this address.\n");
    else sendText(response, 503, NOT_BUILT);
  };
};

const send = (request: IncomingMessage, response: ServerResponse, file: StaticFile): void => {
  response.setHeader("Cache-Control", file.cache);
  response.setHeader("ETag", file.etag);
  response.setHeader("Vary", "Accept-Encoding");
  if (request.headers["if-none-match"] === file.etag) {
    response.statusCode = 304;
    response.end();
    return;
  }
  const coding = bestCoding(request.headers["accept-encoding"], file.bodies);
  const body = file.bodies.get(coding);
  response.setHeader("Content-Type", file.type);
  if (coding !== "identity") response.setHeader("Content-Encoding", coding);
  response.setHeader("Content-Length", body?.length ?? 0);
  response.end(request.method === "HEAD" ? undefined : body);
};

const sendText = (response: ServerResponse, status: number, text: string): void => {
  response.statusCode = status;
  response.setHeader("Content-Type", "text/plain; charset=utf-8");
  response.setHeader("Cache-Control", "no-store");
  response.end(text);
};

const readFolder = async (folder: string): Promise<ReadonlyMap<string, StaticFile>> => {
  const names = await filesBelow(folder);
  const known = new Set(names);
  const isCompressedTwin = (name: string) =>
    /\.(br|gz)$/.test(name) && known.has(name.replace(/\.(br|gz)$/, ""));
  const entries = await Promise.all(
    names
      .filter((name) => !isCompressedTwin(name))
      .map(async (name) => {
        const path = `/${relative(folder, name).split(sep).map(encodeURIComponent).join("/")}`;
        return [path, await readStatic(name, path, known)] as const;
      }),
  );
  return new Map(entries);
};

const readStatic = async (name: string, path: string, known: ReadonlySet<string>): Promise<StaticFile> => {
  const content = await readFile(name);
  const bodies = new Map<Coding, Buffer>([["identity", content]]);
  if (isCompressible(extname(name)))
    for (const coding of ["br", "gzip"] as const) {
      const twin = `${name}.${coding === "gzip" ? "gz" : coding}`;
      bodies.set(coding, known.has(twin) ? await readFile(twin) : await compress(content, coding));
    }
  return {
    type: TYPES[extname(name)] ?? "application/octet-stream",
    cache: path.startsWith(HASHED) ? "public, max-age=31536000, immutable" : "no-cache",
    etag: `"${createHash("sha256").update(content).digest("base64url").slice(0, 22)}"`,
    bodies,
  };
};

/** Every file below a folder; none when the folder is missing. */
const filesBelow = async (folder: string): Promise<string[]> => {
  if (!(await stat(folder).catch(() => null))?.isDirectory()) return [];
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
};
