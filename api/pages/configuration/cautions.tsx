import type { ConfigurationIn } from "../../wire/configuration.ts";
import { SafetyShort } from "../texts/safety-short.tsx";

/** The cautions that belong to what this thing is made of. */
export function Cautions({ words: { kind, parts } }: { readonly words: Pick<ConfigurationIn, "kind" | "parts"> }) {
  const has = (part: string) => parts.some((each) => each.part === part);
  return (
    <>
      {kind === "user_built" && has("fan") && <SafetyShort about="fan" />}
      {has("ioniser") && (
        <aside class="caution" aria-label="While an ioniser runs">
          <p>
            <b>While an ioniser runs.</b> Ionisers, electrostatic and ultraviolet units can make ozone, which harms the
            lungs; you cannot rely on smelling it. California allows no more than 0.050 ppm. A clean air delivery rate
            counts particles and says nothing of gases. Local codes and licensed trades come first.{" "}
            <a href="/safety#ozone">More on safety</a>
          </p>
        </aside>
      )}
    </>
  );
}
