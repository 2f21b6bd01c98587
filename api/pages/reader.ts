import { getCookie } from "hono/cookie";
import type { Ctx } from "../environment.ts";

/** Who reads a page: the unit of flow they want, and where they are, so that the other unit can be offered. */
export interface Reader {
  readonly flow: FlowUnit;
  /** Path and query of the page. */
  readonly href: string;
}

export type FlowUnit = "m3/h" | "[cft_i]/min";

const WRITTEN: Record<FlowUnit, string> = { "m3/h": "m3/h", "[cft_i]/min": "cfm" };
const COOKIE = "motefall_unit";

/** The reader of a request: `unit=` in its address, else the one they chose last, else m³/h. */
export function readerOf(c: Ctx): Reader {
  const { pathname, search } = new URL(c.req.url);
  return { flow: flowOf(c.req.query("unit")) ?? flowOf(getCookie(c, COOKIE)) ?? "m3/h", href: pathname + search };
}

function flowOf(text: string | undefined): FlowUnit | null {
  return (Object.keys(WRITTEN) as FlowUnit[]).find((unit) => WRITTEN[unit] === text) ?? null;
}

/** The same page in the other unit of flow. A page's own cursor is kept: it holds no unit. */
export function inOtherUnit({ flow, href }: Reader): { unit: FlowUnit; href: string } {
  const unit = flow === "m3/h" ? "[cft_i]/min" : "m3/h";
  const url = new URL(href, "http://here");
  url.searchParams.set("unit", WRITTEN[unit]);
  return { unit, href: url.pathname + url.search };
}

/** Remembers for a year a unit asked for in an address; null where none was. */
export function unitCookie(c: Ctx): string | null {
  const unit = flowOf(c.req.query("unit"));
  return unit && `${COOKIE}=${WRITTEN[unit]}; Path=/; Max-Age=31536000; SameSite=Lax`;
}
