import { connect } from "node:net";
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Target, targets } from "../support/targets.ts";

let target: Target;
beforeAll(async () => {
  target = await targets()
    .find(({ name }) => name === "node server")!
    .start();
});
afterAll(() => target.stop());

/** The answer to a request written by hand: clients made of libraries add headers that curl does not send. */
function sendRaw(...headers: string[]): Promise<string> {
  const { hostname, port } = new URL(target.url!);
  return new Promise((resolve, reject) => {
    const socket = connect(Number(port), hostname);
    let answer = "";
    socket.on("data", (text) => {
      answer += text;
    });
    socket.on("end", () => resolve(answer));
    socket.on("error", reject);
    socket.write(["POST /v1/keys HTTP/1.1", "Host: localhost", "Connection: close", ...headers, "", ""].join("\r\n"));
  });
}

test("a key is made by curl -X POST, which sends no type and no length", async () => {
  expect(await sendRaw()).toMatch(/^HTTP\/1.1 201 [\s\S]*"mote_/);
});

test("and by curl -d '', which sends a form's type and nothing in it", async () => {
  const answer = await sendRaw("Content-Type: application/x-www-form-urlencoded", "Content-Length: 0");
  expect(answer).toMatch(/^HTTP\/1.1 201 [\s\S]*"mote_/);
});
