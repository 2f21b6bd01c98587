import { answer, readQuery } from "../answer.ts";
import { type App, endpoint, problems } from "../endpoint.ts";
import { readComparison } from "../read-comparison.ts";
import { ComparisonOut, ComparisonQuery } from "../wire/comparison.ts";

/** `GET /v1/comparison`: which is the stronger, by how much, and how sure that is. */
export function addComparison(app: App): void {
  endpoint(
    app,
    {
      method: "get",
      path: "/v1/comparison",
      summary: "Two to six entries against each other: differences, probabilities, rooms both were tested in",
      request: { query: ComparisonQuery },
      responses: {
        200: { description: "Every two of them", content: { "application/json": { schema: ComparisonOut } } },
        ...problems(404, 422),
      },
    },
    async (c) => {
      const { db, publicUrl } = c.var.deps;
      return answer(await readComparison(db, publicUrl, readQuery(c, ComparisonQuery)));
    },
  );
}
