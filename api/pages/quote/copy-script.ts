/** Where the script below is asked for. */
export const COPY_PATH = "/copy.js";

/**
 * The whole script of pages that can be quoted: it shows the buttons, which without it would do nothing, and copies the
 * text that each names, or marks it where the browser forbids. Only the last one pressed says so. Written as it is sent: no step of a build stands between.
 */
export const COPY_SCRIPT = `const buttons = document.querySelectorAll("button[data-copies]");
for (const button of buttons) {
  button.hidden = false;
  button.addEventListener("click", async () => {
    const field = document.getElementById(button.dataset.copies);
    field.select();
    for (const each of buttons) each.textContent = "Copy";
    try {
      await navigator.clipboard.writeText(field.value);
      button.textContent = "Copied";
    } catch {
      button.textContent = "Marked: copy it by keyboard or touch";
    }
  });
}
`;
