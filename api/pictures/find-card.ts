import { findPicture, insertPicture } from "../../db/pictures.ts";
import type { Dependencies } from "../environment.ts";
import { correctedWords } from "../pins/corrected-words.ts";
import { currentPinOfTrial } from "../pins/current-pin.ts";
import { readPin } from "../pins/read-pin.ts";
import type { PinnedResult } from "../wire/pinned.ts";
import { card } from "./card.ts";
import { THEMES, type ThemeName } from "./themes.ts";

/** Draws the card of a trial that was just stored, before anybody asks for it. */
export async function drawTrial(deps: Dependencies, trial: string): Promise<void> {
  const pin = await currentPinOfTrial(deps.db.read, trial);
  if (pin) await findCard(deps, await readPin(deps.db, deps.publicUrl, pin), "light");
}

/**
 * A pinned result as PNG: drawn once, when it is stored or first asked for, and from then on kept, since its numbers never
 * change. One that was withdrawn, or of which who paid was corrected, is another picture, which is kept beside the first.
 */
export async function findCard(deps: Dependencies, result: PinnedResult, theme: ThemeName): Promise<Uint8Array> {
  const { db, now, render } = deps;
  const became = [...(result.withdrawn ? ["withdrawn"] : []), ...correctedWords(result)];
  const pin = [result.pinned.path, ...became].join("#");
  const kept = await findPicture(db, pin, theme);
  if (kept) return kept;
  const png = await render(card(result, THEMES[theme]));
  await insertPicture(db, { pin, kind: theme, png, at: now().toISOString() });
  return png;
}
