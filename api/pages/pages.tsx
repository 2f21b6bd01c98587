import type { App } from "../endpoint.ts";
import { addPictures } from "../routes/pictures.ts";
import { addAmendmentPage } from "./amendment/amendment-routes.tsx";
import { addAnswerPage } from "./answer/answer-routes.tsx";
import { addComparePage } from "./compare/compare-routes.tsx";
import { addConfigurationPages } from "./configuration/configuration-routes.tsx";
import { addLeaderboardPage } from "./leaderboard/leaderboard-routes.tsx";
import { addLogPage } from "./log/log-page.tsx";
import { MARK } from "./mark.ts";
import { addPinnedPages } from "./pinned/pinned-routes.tsx";
import { addPlanPage } from "./plan/plan-routes.tsx";
import { COPY_PATH, COPY_SCRIPT } from "./quote/copy-script.ts";
import { addRoomPage } from "./room/room-routes.tsx";
import { STYLESHEET } from "./stylesheet.ts";
import { addSubmitScript } from "./submit/script-route.ts";
import { addSubmitPage } from "./submit/submit-routes.ts";
import { addTextPages } from "./texts/text-routes.tsx";
import { addQuestionForm } from "./trial/question-routes.ts";
import { addTrialPage } from "./trial/trial-routes.tsx";
import { addWithdrawalPage } from "./withdrawal/withdrawal-routes.tsx";

/** The pages: server-made HTML over the same functions as the API. */
export function addPages(app: App): void {
  addLeaderboardPage(app);
  addConfigurationPages(app);
  addTrialPage(app);
  addQuestionForm(app);
  addPictures(app); // its paths begin with those of pinned pages
  addPinnedPages(app);
  addWithdrawalPage(app);
  addAmendmentPage(app);
  addAnswerPage(app);
  addLogPage(app);
  addRoomPage(app);
  addComparePage(app);
  addPlanPage(app);
  addSubmitPage(app);
  addTextPages(app);
  addSubmitScript(app);
  app.get("/motefall.css", () => asset(STYLESHEET, "text/css; charset=utf-8"));
  app.get(COPY_PATH, () => asset(COPY_SCRIPT, "text/javascript; charset=utf-8"));
  app.get("/motefall.svg", () => asset(MARK, "image/svg+xml"));
}

function asset(text: string, type: string): Response {
  return new Response(text, { headers: { "Content-Type": type, "Cache-Control": "public, max-age=3600" } });
}
