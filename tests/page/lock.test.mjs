// The lock on the page is the lock: its pixels, its keys, its recording; the same
// for everybody, and honest when it is gone.

import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { EMULATOR, ROOT, answered, ask, browse, drill, live, open, serve, until } from "./lock.mjs";

let lock;
let browser;
before(async () => {
  lock = await serve();
  browser = await browse();
});
after(async () => {
  await browser?.close();
  await lock?.stop();
});

const anew = (page) => answered(page, () => page.selectOption("#lock-pick", "till"));
const words = (page) => page.textContent("#words");

test("the pixels are those that the lock drew", async () => {
  const page = await open(browser, lock.address);
  // Every picture that comes over the wire, against what is on the canvas.
  const differing = await page.evaluate(async () => {
    const front = await new Promise((resolve) => {
      const stream = new EventSource("/events");
      stream.addEventListener("front", (event) => {
        stream.close();
        resolve(JSON.parse(event.data));
      });
    });
    const bytes = Uint8Array.from(atob(front.screen.pixels), (c) => c.charCodeAt(0));
    const paper = document.getElementById("paper");
    const { data } = paper.getContext("2d").getImageData(0, 0, paper.width, paper.height);
    let [wrong, ink] = [0, 0];
    for (let y = 0; y < 128; y += 1) {
      for (let x = 0; x < 296; x += 1) {
        const set = (bytes[y * 37 + (x >> 3)] & (0x80 >> (x & 7))) !== 0;
        const dark = data[4 * (y * 296 + x)] < 128;
        ink += set ? 1 : 0;
        wrong += set === dark ? 0 : 1;
      }
    }
    return { wrong, ink };
  });
  assert.equal(differing.wrong, 0);
  assert.ok(differing.ink > 500, "there is a picture");
});

test("keys work by mouse, keyboard and touch", async () => {
  const page = await open(browser, lock.address, { hasTouch: true });
  await anew(page);
  await page.click('[data-key="1"]');
  await until(async () => (await words(page)).includes("1"), "a digit by mouse");
  await page.focus('[data-key="1"]');
  await page.keyboard.press("2");
  await until(async () => /12/.test(await words(page)), "a digit by keyboard");
  await page.tap('[data-key="5"]');
  await until(async () => /·/.test(await words(page)), "a digit by touch, as a dot");
  await page.keyboard.press("Backspace");
  await page.keyboard.press("Escape");
  await until(async () => /Secured/.test(await words(page)), "back");
  await page.keyboard.press("Enter");
  await until(async () => /Hold shut/.test(await words(page)), "OK leads to the list");
  assert.deepEqual(page.mistakes, []);
});

test("a day at the till: open, why, week, audit, alarm", async () => {
  const page = await open(browser, lock.address);
  await anew(page);
  await page.selectOption("#holder", "12");
  await until(async () => /Tomasz/.test(await page.textContent("#why-says")), "Tomasz");
  assert.match(await page.textContent("#why-says"), /frees the bolt/);
  assert.ok((await page.$$("#why-rules tbody tr")).length >= 9);
  assert.ok((await page.$$("#week-picture .open")).length >= 10);
  await answered(page, () => page.click("#type-plain"));
  await until(async () => /Draw the bolt/.test(await words(page)), "released");
  await answered(page, () => page.click("#handle"));
  await until(async () => /drawn/.test(await page.textContent("#bolt-says")), "the bolt drawn");
  assert.match(await page.textContent("#why-says"), /opens nothing now/);
  await answered(page, () => page.click("#handle"));
  await answered(page, () => page.click("#type-duress"));
  await until(async () => /DURESS/.test(await page.textContent("#alarm-says")), "the guard room hears it");
  assert.match(await page.textContent("#records"), /under duress/);
  // In front nothing tells.
  assert.doesNotMatch(await page.textContent("#front"), /duress(?! code)/i);
  await answered(page, () => page.check("#front-only"));
  for (const id of ["#room", "#audit"]) await until(async () => !(await page.isVisible(id)), `${id} is hidden`);
  // Nobody was shown a code.
  const all = await page.textContent("body");
  for (const code of ["739204", "739205", "480317"]) assert.ok(!all.includes(code));
  // For everybody who looks, and until it is lifted.
  const other = await open(browser, lock.address);
  assert.equal(await other.isChecked("#front-only"), true);
  await answered(other, () => other.uncheck("#front-only"));
  await until(() => page.isVisible("#room"), "the room again");
});

test("a trainer by the own link shows viewers the front only", async () => {
  const hall = await serve("0.0.0.0:0");
  try {
    const here = (address) => address.replace("0.0.0.0", "127.0.0.1");
    const viewer = await open(browser, here(hall.address));
    await until(async () => /Tomasz/.test(await viewer.textContent("body")), "everything so far");
    const trainer = await open(browser, here(hall.own));
    await until(() => trainer.isHidden("#join"), "who has the own link acts");
    assert.ok(!trainer.url().includes("#"), "the secret has left the address bar");
    await answered(trainer, () => trainer.check("#front-only"));
    await until(() => viewer.isHidden("#week"), "the front only");
    for (const id of ["#room", "#audit", "#why", "#time", "#lessons", ".typing"]) {
      assert.equal(await viewer.isVisible(id), false, id);
    }
    assert.ok(await viewer.isVisible("#keypad"));
    await answered(trainer, () => trainer.click("#type-duress"));
    await until(async () => /Draw the bolt/.test(await words(viewer)), "what is on the display");
    assert.doesNotMatch(await viewer.textContent("body"), /Tomasz|DURESS/);
    assert.deepEqual([...viewer.mistakes, ...trainer.mistakes], []);
    await answered(trainer, () => trainer.uncheck("#front-only"));
    await until(async () => /DURESS/.test(await viewer.textContent("#alarm-says")), "everything again");
  } finally {
    await hall.stop();
  }
});

test("time: to what happens next, to a date, back to a new lock", async () => {
  const page = await open(browser, lock.address);
  await anew(page);
  await page.fill("#go-to", "2027-03-01T20:00:00");
  await answered(page, () => page.click("#go button"));
  await until(async () => /20:00:00/.test(await page.textContent("#now")), "the evening");
  await until(async () => /Closed/.test(await page.textContent("#why-rules")), "closed");
  let more = 0;
  while (!/2 Mar 2027 08:30:00/.test(await page.textContent("#now"))) {
    await answered(page, () => page.click("#next"));
    await new Promise((resolve) => setTimeout(resolve, 60));
    assert.ok((more += 1) < 20, "the next morning is among what happens next");
  }
  await page.fill("#go-to", "2027-02-01T09:00:00");
  await answered(page, () => page.click("#go button"));
  await until(async () => /1 Feb 2027/.test(await page.textContent("#now")), "an earlier day");
  assert.match(await page.textContent("#status"), /new lock/);
  await answered(page, () => page.click('[data-speed="60"]'));
  const was = await page.textContent("#now");
  await until(async () => (await page.textContent("#now")) !== was, "a clock that runs");
  await answered(page, () => page.click('[data-speed="0"]'));
});

test("two viewers see the same lock, and a reload loses nothing", async () => {
  const [one, two] = [await open(browser, lock.address), await open(browser, lock.address)];
  await anew(one);
  await answered(one, () => one.click("#type-wrong"));
  await until(async () => /3 tries left/.test(await words(two)), "what the other one did");
  await answered(two, () => two.click("#inhibit"));
  await until(async () => (await one.getAttribute("#inhibit", "aria-pressed")) === "true", "and back");
  const shown = (page) =>
    page.evaluate(() => {
      const text = (id) => document.getElementById(id).textContent;
      const picture = document.getElementById("paper").toDataURL();
      return [...["words", "now", "records", "why-rules", "alarm-says", "recorded"].map(text), picture];
    });
  const before = await shown(one);
  assert.deepEqual(await shown(two), before);
  await one.reload();
  await live(one);
  await until(async () => (await words(one)) !== "", "the screen");
  assert.deepEqual(await shown(one), before);
});

test("what was done is a drill that does the same", async () => {
  const page = await open(browser, lock.address);
  await anew(page);
  await page.selectOption("#holder", "12");
  const press = (id) => answered(page, () => page.click(id));
  await press("#type-wrong");
  await press('[data-wait="10"]');
  for (const key of ["1", "2", "7", "3", "9", "2", "0", "5", "ok"]) {
    await press(`[data-key="${key}"]`);
  }
  await press("#handle");
  await press('[data-wait="60"]');
  await press("#handle");
  await press("#inhibit");
  await press("#battery");
  await press('[data-wait="600"]');
  await press("#battery");
  await press("#inhibit");
  await page.fill("#supply", "4700");
  await until(async () => /Battery low/.test(await words(page)), "a low supply");
  await press("#force");
  await press("#lose-clock");
  await press('[data-wait="3600"]');
  await press("#collect");
  const [download] = await Promise.all([page.waitForEvent("download"), page.click("#take-recording")]);
  const folder = mkdtempSync(join(tmpdir(), "recorded-"));
  const file = join(folder, "recorded.toml");
  await download.saveAs(file);
  cpSync(`${ROOT}emulator/demo/harbour-bakery.toml`, join(folder, "harbour-bakery.toml"));
  const played = drill(file);
  assert.equal(played.status, 0, played.said);
  const text = readFileSync(file, "utf8");
  assert.ok(text.match(/\[\[step\]\]/g).length >= 15 && /audit = \["released"/.test(text), text);
  // A drill that says something else fails: it was compared.
  writeFileSync(file, text.replace('alarm = "duress"', 'alarm = "quiet"'));
  assert.equal(drill(file).status, 1);
});

test("a recorded lesson replays too", async () => {
  const page = await open(browser, lock.address);
  for (const id of ["04-battery-pulled-in-a-penalty", "10-a-couriers-code", "12-collecting-the-audit"]) {
    await ask(lock.address, { do: "lesson", id });
    while ((await ask(lock.address, { do: "step" })).status === 200);
    const text = await (await fetch(`${lock.address}recording.toml`)).text();
    const folder = mkdtempSync(join(tmpdir(), "recorded-"));
    cpSync(`${ROOT}emulator/demo/harbour-bakery.toml`, join(folder, "harbour-bakery.toml"));
    writeFileSync(join(folder, "recorded.toml"), text);
    const played = drill(join(folder, "recorded.toml"));
    assert.equal(played.status, 0, `${id}: ${played.said}`);
  }
  await page.close();
});

test("a lock that is gone is not shown as if it were there", async () => {
  const first = await serve();
  const page = await open(browser, first.address);
  await answered(page, () => page.click("#type-wrong"));
  await first.stop();
  await page.waitForSelector("body[data-link=lost]");
  assert.match(await page.textContent("#status"), /Disconnected/);
  assert.ok(await page.isVisible("#status"));
  const enabled = await page.$$eval("[data-act], [data-key]", (all) => all.filter((e) => !e.disabled).length);
  assert.equal(enabled, 0, "nothing can be pressed");
  const again = await serve(`127.0.0.1:${first.port}`);
  try {
    await live(page);
    await until(async () => /another lock/.test(await page.textContent("#status")), "it says so");
    await until(async () => /Secured/.test(await words(page)), "the new lock's screen");
    assert.ok(await page.isEnabled("#type-wrong"));
  } finally {
    await again.stop();
  }
});

test("a folder is the memory stick: sealed on a laptop, loaded, collected, read", async () => {
  const folder = mkdtempSync(join(tmpdir(), "stick-"));
  const stick = join(folder, "stick");
  mkdirSync(stick);
  writeFileSync(join(folder, "passphrase"), "a passphrase of this test\n");
  const demo = `${ROOT}emulator/demo/harbour-bakery.toml`;
  const keys = ["--keyring", join(folder, "ring"), "--passphrase-file", join(folder, "passphrase")];
  const run = (...all) => {
    const { status, stdout, stderr } = spawnSync(EMULATOR, all, { encoding: "utf8" });
    assert.ok(status < 2, stderr);
    return stdout;
  };
  run("keyring", "pair", "--lock", "1001", "--print", ...keys);
  run("keyring", "confirm", "--lock", "1001", ...keys);
  const office = `${ROOT}emulator/demo/office/harbour-bakery.toml`;
  const out = join(stick, "till.timetables");
  const sealed = JSON.parse(run("plan", "seal", office, "--lock", "till", "--out", out, "--format", "json", ...keys));
  writeFileSync(join(stick, "junk.timetables"), "no such file");
  const here = await serve("127.0.0.1:0", [
    "--site", demo, "--lock", "till", "--start", "2027-03-01T09:00", "--stick", stick, ...keys,
  ]);
  try {
    const page = await open(browser, here.address);
    const names = await page.$$eval("#stick option", (all) => all.map((option) => option.value));
    assert.deepEqual(names, ["junk.timetables", "till.timetables"]);
    const says = async (part) => until(async () => (await page.textContent("#link-says")).includes(part), part);
    await page.selectOption("#stick", "till.timetables");
    await answered(page, () => page.click("#load"));
    await says("nobody at the keypad");
    const type = async (keys) => {
      for (const key of keys.split(" ")) await ask(here.address, { do: "key", key });
    };
    await type("ok ok ok ok 2");
    await ask(here.address, { do: "type", number: 50, code: "plain" });
    await page.selectOption("#stick", "junk.timetables");
    await answered(page, () => page.click("#load"));
    await says("junk.timetables is no timetable file");
    await page.selectOption("#stick", "till.timetables");
    await answered(page, () => page.click("#load"));
    await says(sealed.fingerprint);
    await until(async () => (await words(page)).includes(sealed.fingerprint), "the lock shows the same");
    await type("ok");
    await until(async () => (await words(page)).includes("Version 1 is in force"), "in force");
    await type("back");
    await type("ok ok ok ok 2");
    await ask(here.address, { do: "type", number: 50, code: "plain" });
    await answered(page, () => page.click("#collect"));
    await says(".extract");
    assert.equal((await ask(here.address, { do: "load", file: "../passphrase" })).status, 409);
    assert.match(await (await fetch(`${here.address}recording.toml`)).text(), /a stick was used/);
  } finally {
    await here.stop();
  }
  const verified = JSON.parse(run("audit", "verify", "--format", "json", ...keys, stick));
  assert.match(JSON.stringify(verified), /"lock":1001/);
  assert.equal(verified.counts.emulated, 1);
});

test("a site without demo codes is refused in a sentence", async () => {
  const site = `${ROOT}emulator/demo/office/harbour-bakery.toml`;
  const { status, stderr } = spawnSync(EMULATOR, ["serve", "--site", site], { encoding: "utf8", timeout: 5_000 });
  assert.equal(status, 2);
  assert.match(stderr, /demo\.codes/);
});
