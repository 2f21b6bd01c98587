import { findPicture, insertPicture } from "../../db/pictures.ts";
import type { Dependencies } from "../environment.ts";
import type { PinnedResult } from "../wire/pinned.ts";
import { card } from "./card.ts";
import { THEMES, type ThemeName } from "./themes.ts";

/**
 * A pinned result as PNG: drawn when it is first asked for, and from then on kept, since its numbers never change. One that
 * was withdrawn is another picture, which is kept beside the first.
 */
export async function findCard(deps: Dependencies, result: PinnedResult, theme: ThemeName): Promise<Uint8Array> {
  const { db, now, render } = deps;
  const pin = result.withdrawn ? `${result.pinned.path}#withdrawn` : result.pinned.path;
  const kept = await findPicture(db, pin, theme);
  if (kept) return kept;
  const png = await render(card(result, THEMES[theme]));
  await insertPicture(db, { pin, kind: theme, png, at: now().toISOString() });
  return png;
}
