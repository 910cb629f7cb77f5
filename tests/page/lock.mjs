// What the tests share: the emulator as a process, a browser, a page on it.

import { spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import { existsSync } from "node:fs";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

/** The root of the repository. */
export const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const TARGET = process.env.CARGO_TARGET_DIR ?? `${ROOT}target`;
/** The program; `EMULATOR` names another build. */
export const EMULATOR = process.env.EMULATOR ?? `${TARGET}/release/emulator`;
if (!existsSync(EMULATOR)) throw new Error(`build it first: cargo build --release (${EMULATOR})`);

const BROWSER = process.env.CHROMIUM ?? "/usr/bin/chromium";
const QUIET = [
  "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
  "--disable-background-networking", "--disable-component-update", "--disable-sync",
];

/** A page that is being served; at `listen`, if that is said. */
export async function serve(listen = "127.0.0.1:0", more = []) {
  const child = spawn(EMULATOR, ["serve", "--format", "json", "--listen", listen, ...more]);
  const lines = createInterface({ input: child.stdout });
  const [line] = await once(lines, "line");
  const { address, join_code: code, own_link: own } = JSON.parse(line);
  const stop = async () => {
    if (child.exitCode !== null || child.signalCode !== null) return;
    child.kill("SIGKILL");
    await once(child, "exit");
  };
  return { address, code, own, stop, pid: child.pid, port: new URL(address).port };
}

export const browse = () => chromium.launch({ executablePath: BROWSER, args: QUIET });

/** A page on the lock, with the mistakes that it reports. */
export async function open(browser, address, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  const page = await context.newPage();
  page.mistakes = [];
  page.on("pageerror", (error) => page.mistakes.push(error.message));
  page.on("console", (message) => {
    // A refusal of the lock is an answer, not a mistake.
    const refused = /status of 40[39]/.test(message.text());
    if (message.type() === "error" && !refused) page.mistakes.push(message.text());
  });
  await page.goto(address);
  await live(page);
  return page;
}

export const live = (page) => page.waitForSelector("body[data-link=live]");

/** Does something on the page, and waits until the lock has answered. */
export async function answered(page, act) {
  const [answer] = await Promise.all([
    page.waitForResponse((response) => response.url().endsWith("/do")),
    act(),
  ]);
  return answer.status();
}

/** Asks the lock as the page would. */
export async function ask(address, command, headers = {}) {
  const answer = await fetch(`${address}do`, {
    method: "POST",
    headers: { "Content-Type": "application/json", Origin: address.slice(0, -1), ...headers },
    body: JSON.stringify(command),
  });
  return { status: answer.status, ...(await answer.json()) };
}

/** Plays a drill file with the command line; what it printed, and its exit code. */
export function drill(file) {
  const { status, stdout, stderr } = spawnSync(EMULATOR, ["drill", file], { encoding: "utf8" });
  return { status, said: stdout + stderr };
}

/** Waits until `holds` does. */
export async function until(holds, what) {
  for (let tries = 0; tries < 200; tries += 1) {
    if (await holds()) return;
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
  throw new Error(`it never came to this: ${what}`);
}
