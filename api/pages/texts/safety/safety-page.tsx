import { Page } from "../../page.tsx";
import type { Reader } from "../../reader.ts";
import { Contents, Part } from "../part.tsx";
import { AerosolCautions } from "./aerosol-cautions.tsx";
import { BuildingCautions } from "./building-cautions.tsx";
import { NioshTable } from "./niosh-table.tsx";

const PARTS = [
  ["aerosol", "While you make a test aerosol"],
  ["salt", "Salt mist and mains"],
  ["fan", "While you build or run a fan with filters"],
  ["filters", "While you change filters"],
  ["ozone", "Ionisers, electrostatic and ultraviolet units"],
  ["noise", "Where it is loud"],
  ["wood-dust", "Wood dust, silica and fumes"],
  ["whose-word", "Whose word counts"],
] as const;

/** What can hurt somebody, by what they are doing. */
export function SafetyPage({ reader }: { readonly reader: Reader }) {
  return (
    <Page reader={reader} title="Safety · Motefall">
      <article class="text">
        <h1>Safety</h1>
        <p>
          A test fills a closed room with particles and runs a machine in it. Read the part about what you are going to
          do. Where your local code, your fire authority or a licensed trade says otherwise, do as they say.
        </p>
        <Contents of={PARTS} />
        <AerosolCautions />
        <BuildingCautions />
        <Part id="noise" title="Where it is loud">
          <p>
            The noise figures here are taken at 1 m from one machine. At your ear it may be more: count the other
            machines in the room, and each further unit of the same kind. Noise that hurts nothing at once still costs
            hearing over the years. Above the limit wear hearing protection, or stay for less long.
          </p>
          <NioshTable />
          <p class="quiet">
            National Institute for Occupational Safety and Health (USA), Criteria for a Recommended Standard:
            Occupational Noise Exposure, 1998 (publication 98-126, number from memory). Your country’s law may set other
            limits.
          </p>
        </Part>
        <Part id="wood-dust" title="Wood dust, silica and fumes">
          <ul>
            <li>
              A room cleaner comes last. Where wood dust, silica or fumes are made, catch them at the tool first, then
              ventilate, then wear a respirator that was fitted to your face. A cleaner works on what all of these
              missed, after you have breathed some of it.
            </li>
            <li>
              Wood dust causes cancer, and it burns: fine dust in the air or in a duct can explode. Keep sparks, flames
              and hot surfaces away from it, and do not collect it in a home-made box.
            </li>
            <li>
              Silica dust scars the lungs for good. A clear look of the air proves nothing: the worst grains are not
              seen.
            </li>
            <li>A filter for particles stops no gas. Solvents, welding gases and carbon monoxide pass it.</li>
          </ul>
        </Part>
        <Part id="whose-word" title="Whose word counts">
          <p>
            We publish volunteers’ measurements. They are not a certification of any product, and no medical advice.
            What stands on this page are the usual cautions, written down once more; they are not complete and know
            nothing of your room. Local codes, the makers’ instructions and licensed practice come first: electricians
            for mains, the fire service for smoke, occupational hygienists for dust, physicians for health.
          </p>
        </Part>
      </article>
    </Page>
  );
}
