import { LIMIT_DB } from "../../../analysis/sizing/hearing-limit.ts";
import type { SizingOut } from "../../wire/sizing.ts";
import type { Asked } from "../form/asked.ts";

/** Said where the limit asked for, or a set that may be chosen, is loud enough to harm hearing. */
export function HearingHint({ asked, sizing }: { readonly asked: Asked; readonly sizing: SizingOut }) {
  const allowed = Number(asked.texts.noise_max?.replace(",", ".") ?? Number.NaN);
  const loudest = Math.max(...sizing.sets.map(({ noise }) => noise?.high ?? 0));
  if (!(allowed > LIMIT_DB || loudest > LIMIT_DB)) return null;
  return (
    <p class="caution" role="note">
      Loud enough to harm hearing: NIOSH recommends no more than {LIMIT_DB} dB(A) over 8 hours a day, and half the time
      for every 3 dB more: 88 for 4 h, 91 for 2 h, 94 for 1 h, 100 for 15 min. Tools that run at the same time add to
      it. <a href="/safety#noise">Safety</a>
    </p>
  );
}
