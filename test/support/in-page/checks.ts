/** The checks that run inside a page. */
export { openDetails, unsafe } from "./content.ts";
export { focusFaults, watchFocus } from "./keyboard.ts";
export { crowdedCharts, cutOff, sideways, tinyWords } from "./layout.ts";
export { figuresInWords, looseNumbers, quantityFaults } from "./numbers.ts";
export { smallTargets } from "./targets.ts";
