// Requests that nobody's own page makes: refused, with bounded memory.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { request } from "node:http";
import { connect } from "node:net";
import { after, before, test } from "node:test";
import { ask, browse, open, serve, until } from "./lock.mjs";

let lock;
before(async () => {
  lock = await serve();
});
after(() => lock?.stop());

/** What a request with these headers gets; `fetch` would set its own. */
function raw({ port }, path, { method = "GET", headers = {}, body = "" } = {}) {
  return new Promise((resolve, reject) => {
    const sent = request({ host: "127.0.0.1", port, path, method, headers }, (answer) => {
      let text = "";
      answer.on("data", (data) => (text += data));
      answer.on("error", () => resolve({ status: "closed" }));
      answer.on("end", () => resolve({ status: answer.statusCode, headers: answer.headers, text }));
    });
    // Whoever sends on after the refusal finds the connection closed.
    const closed = ["EPIPE", "ECONNRESET"];
    sent.on("error", (error) => (closed.includes(error.code) ? resolve({ status: "closed" }) : reject(error)));
    sent.end(body);
  });
}

const json = { "Content-Type": "application/json" };
const ours = () => ({ ...json, Origin: `http://127.0.0.1:${lock.port}` });
const wait = '{"do":"wait","seconds":1}';

test("foreign pages and foreign names", async () => {
  const post = (headers) => raw(lock, "/do", { method: "POST", headers, body: wait });
  assert.equal((await post(ours())).status, 200);
  assert.equal((await post(json)).status, 403, "no origin");
  for (const origin of ["http://example.org", "null", `https://127.0.0.1:${lock.port}`, "http://127.0.0.1"]) {
    assert.equal((await post({ ...json, Origin: origin })).status, 403, origin);
  }
  const host = `example.org:${lock.port}`;
  assert.equal((await post({ ...json, Host: host, Origin: `http://${host}` })).status, 403);
  assert.equal((await raw(lock, "/", { headers: { Host: host } })).status, 403, "a name given by somebody else");
  assert.equal((await raw(lock, "/events", { headers: { Origin: "http://example.org" } })).status, 403);
});

test("every answer keeps the browser on our side", async () => {
  for (const path of ["/", "/page.js", "/handout/07-duress", "/nowhere", "/do"]) {
    const { headers } = await raw(lock, path);
    assert.match(headers["content-security-policy"], /default-src 'none'.*frame-ancestors 'none'/);
    assert.equal(headers["x-content-type-options"], "nosniff");
    assert.doesNotMatch(headers["content-security-policy"], /unsafe/);
  }
});

test("bodies that are no command", async () => {
  const post = (body, headers = ours()) => raw(lock, "/do", { method: "POST", headers, body });
  for (const length of [5_000, 5_000_000]) {
    assert.ok([413, "closed"].includes((await post("x".repeat(length))).status), `${length}`);
  }
  for (const junk of [
    "", "null", "[]", "{", '{"do":"open"}', '{"do":"key","key":"55"}', '{"do":"key","key":"1","more":1}',
    '{"do":"wait","seconds":-1}', '{"do":"choose","number":100}', '{"do":"go"}', "\u0000", '{"do":"wait","seconds":1e99}',
    "[".repeat(4_000),
  ]) {
    const { status, text } = await post(junk);
    assert.equal(status, 400, junk);
    assert.doesNotMatch(text, /55/, "what was sent is not repeated");
  }
  assert.equal((await post(wait, { Origin: ours().Origin })).status, 400, "no JSON by its name");
  for (const odd of [
    { do: "go", to: "yesterday" }, { do: "run", speed: 7 }, { do: "lesson", id: "../../etc/passwd" },
    { do: "lock", id: "" }, { do: "load", file: "/etc/passwd" }, { do: "wait", seconds: 4_000_000_000 },
    { do: "type", number: 99, code: "plain" }, { do: "step" }, { do: "rejoin" },
  ]) {
    assert.equal((await ask(lock.address, odd)).status, 409, JSON.stringify(odd));
  }
  assert.equal((await raw(lock, "/handout/..%2f..%2fetc%2fpasswd")).status, 404);
});

test("bytes that are no HTTP", async () => {
  const junk = [Buffer.alloc(100_000, 0xff), Buffer.from("GET / HTTP/9.9\r\n\r\n"), Buffer.from("\r\n".repeat(9_000))];
  for (const bytes of junk) {
    await new Promise((resolve) => {
      const socket = connect(lock.port, "127.0.0.1", () => socket.write(bytes));
      socket.on("close", resolve);
      socket.on("error", () => {});
      socket.resume();
      setTimeout(() => socket.destroy(), 2_000);
    });
  }
  assert.equal((await ask(lock.address, { do: "wait", seconds: 1 })).status, 200, "it still answers");
});

const resident = (pid) => Number(readFileSync(`/proc/${pid}/status`, "utf8").match(/VmRSS:\s+(\d+)/)[1]);

test("a thousand sessions, and as many silent connections", async () => {
  const before = resident(lock.pid);
  const streams = [];
  const answers = { watching: 0, refused: 0, closed: 0 };
  const one = () =>
    new Promise((resolve) => {
      const sent = request({ host: "127.0.0.1", port: lock.port, path: "/events", agent: false }, (answer) => {
        if (answer.statusCode === 200) answers.watching += 1;
        else answers.refused += 1;
        answer.resume();
        resolve();
      });
      sent.on("error", () => {
        answers.closed += 1;
        resolve();
      });
      sent.end();
      streams.push(sent);
    });
  for (let n = 0; n < 1_000; n += 1) await one();
  const silent = [];
  for (let n = 0; n < 1_000; n += 1) {
    const socket = connect(lock.port, "127.0.0.1");
    socket.on("error", () => {});
    silent.push(socket);
  }
  await new Promise((resolve) => setTimeout(resolve, 500));
  const grown = resident(lock.pid) - before;
  assert.equal(answers.watching, 64, JSON.stringify(answers));
  assert.equal(answers.refused + answers.closed, 936);
  assert.ok(grown < 40_000, `memory grew by ${grown} KiB`);
  console.log(`a thousand sessions: ${JSON.stringify(answers)}, memory grew by ${grown} KiB`);
  for (const socket of [...streams, ...silent]) socket.destroy();
  await until(async () => {
    try {
      return (await ask(lock.address, { do: "wait", seconds: 1 })).status === 200;
    } catch {
      return false;
    }
  }, "room again once they are gone");
});

test("in a classroom only who has the code acts", async () => {
  const hall = await serve("0.0.0.0:0");
  const browser = await browse();
  try {
    const address = `http://127.0.0.1:${hall.port}/`;
    assert.match(hall.code, /^[2-9A-HJ-NP-TV-Z]{8}$/);
    assert.equal((await ask(address, { do: "wait", seconds: 1 })).status, 403);
    assert.equal((await raw(hall, "/recording.toml")).status, 403);
    const viewer = await open(browser, address);
    assert.equal(await viewer.isDisabled("#type-plain"), true);
    const trainer = await open(browser, address);
    await trainer.fill("#join-code", "WRONGONE");
    await trainer.click("#join button");
    await until(async () => /not the join code/.test(await trainer.textContent("#refused")), "a wrong code");
    await trainer.fill("#join-code", hall.code.toLowerCase());
    await trainer.click("#join button");
    await until(() => trainer.isEnabled("#type-plain"), "joined");
    await trainer.click("#type-wrong");
    await until(async () => /tries left/.test(await viewer.textContent("#words")), "the class sees it");
    assert.equal(await viewer.isDisabled("#type-plain"), true);
    // Guessing is slow.
    const guess = () =>
      raw(hall, "/join", {
        method: "POST", headers: { ...json, Origin: `http://127.0.0.1:${hall.port}` }, body: '{"code":"AAAAAAAA"}',
      });
    let last;
    for (let n = 0; n < 12; n += 1) last = (await guess()).status;
    assert.equal(last, 429);
  } finally {
    await browser.close();
    await hall.stop();
  }
});
