/** A reply of the HTTP API. */
export interface Reply<T> {
  readonly status: number;
  readonly headers: Headers;
  /** As the caller expects it; not checked here. */
  readonly body: T;
}

/** Calls the API as the product's client does: a bearer secret, JSON both ways. */
export const call = async <T = Record<string, unknown>>(
  origin: string,
  route: string,
  options: {
    readonly bearer?: string;
    readonly body?: unknown;
    readonly headers?: Record<string, string>;
  } = {},
): Promise<Reply<T>> => {
  const [method = "GET", path = "/"] = route.split(" ");
  const headers: Record<string, string> = { ...options.headers };
  if (options.bearer !== undefined) headers.Authorization = `Bearer ${options.bearer}`;
  if (options.body !== undefined) headers["Content-Type"] ??= "application/json";
  const body = typeof options.body === "string" ? options.body : JSON.stringify(options.body);
  const response = await fetch(`${origin}${path}`, {
    method,
    headers,
    ...(options.body === undefined ? {} : { body }),
  });
  const text = await response.text();
  const isJson = response.headers.get("content-type")?.includes("json") ?? false;
  return {
    status: response.status,
    headers: response.headers,
    body: (isJson ? JSON.parse(text) : text) as T,
  };
};
