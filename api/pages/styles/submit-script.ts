/** What the script of the page where a test is added brings: grips for the marks, what it says, the draft. */
export const SUBMIT_SCRIPT = `
.strip > div { position: relative; height: 34px; }
.grip { position: absolute; top: 2px; min-width: 30px; height: 30px; padding: 0 .5rem; display: grid; place-items: center; cursor: ew-resize;
  touch-action: none; user-select: none; white-space: nowrap; font-size: .85rem; color: var(--soft); background: var(--paper);
  border: 1px dashed var(--edge); border-radius: 3px; }
.grip.stated { color: var(--ink); border: 1px solid var(--ink); }
.grip-line { stroke: var(--edge); stroke-dasharray: 2 4; fill: none; } .grip-line.stated { stroke: var(--ink); stroke-dasharray: none; }
#preview .mark, #preview .mark-name { display: none; }
#said { min-height: 1.6em; } #said:empty { min-height: 0; }
.dropping .slot { outline: 2px dashed var(--edge); outline-offset: 6px; }
@media print { .strip { display: none; } }
`;
