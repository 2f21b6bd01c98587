import { BASE } from "./styles/base.ts";
import { CHARTS } from "./styles/charts.ts";
import { CONFIGURATION } from "./styles/configuration.ts";
import { FORMS } from "./styles/forms.ts";
import { LEADERBOARD } from "./styles/leaderboard.ts";
import { MARK_RULES } from "./styles/marks.ts";
import { QUOTE } from "./styles/quote.ts";
import { SUBMIT } from "./styles/submit.ts";
import { SUBMIT_SCRIPT } from "./styles/submit-script.ts";
import { TABLES } from "./styles/tables.ts";
import { TEXTS } from "./styles/texts.ts";
import { TOOLS } from "./styles/tools.ts";
import { TRIAL } from "./styles/trial.ts";

/** The one stylesheet: quiet, readable, light and dark, for print too; nothing is fetched from elsewhere. */
export const STYLESHEET = [
  BASE,
  TABLES,
  CHARTS,
  MARK_RULES,
  FORMS,
  TRIAL,
  LEADERBOARD,
  SUBMIT,
  SUBMIT_SCRIPT,
  TOOLS,
  CONFIGURATION,
  QUOTE,
  TEXTS,
].join("");
