// Each lesson, played to its end: by clicks, and by keyboard alone.

import assert from "node:assert/strict";
import { after, before, describe, test } from "node:test";
import { answered, browse, open, serve, until } from "./lock.mjs";

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

const progress = (page) =>
  page.evaluate(() => ({
    done: document.querySelectorAll("#lesson-steps > .done").length,
    all: document.querySelectorAll("#lesson-steps > li").length,
    met: document.querySelectorAll("#lesson-steps .met").length,
    missed: [...document.querySelectorAll("#lesson-steps .missed")].map((item) => item.textContent),
  }));

async function ended(page, id) {
  const { done, all, met, missed } = await progress(page);
  assert.deepEqual(missed, [], id);
  assert.ok(all >= 5 && met >= 5, `${id} shows something: ${all} steps, ${met} expectations met`);
  assert.equal(done, all, id);
  assert.match(await page.textContent("#lesson-say"), /over/);
}

async function ids(page) {
  const all = await page.$$eval("#lesson-pick option", (options) => options.map((o) => o.value));
  assert.ok(all.length >= 10, "ten lessons or more");
  return all;
}

const started = (page) =>
  until(async () => (await progress(page)).all > 0 && (await progress(page)).done === 0, "a lesson that starts");

describe("every lesson", () => {
  test("by clicks", async () => {
    const page = await open(browser, lock.address);
    for (const id of await ids(page)) {
      await page.selectOption("#lesson-pick", id);
      assert.equal(await answered(page, () => page.click("#lesson-start")), 200);
      await started(page);
      for (let left = (await progress(page)).all; left > 0; left -= 1) {
        const { done } = await progress(page);
        assert.equal(await answered(page, () => page.click("#lesson-step")), 200);
        await until(async () => (await progress(page)).done === done + 1, `${id}, step ${done + 1}`);
      }
      await ended(page, id);
    }
    assert.deepEqual(page.mistakes, []);
  });

  test("by keyboard alone", async () => {
    const page = await open(browser, lock.address);
    const all = await ids(page);
    // Tab until the focus is there: nothing is clicked and nothing focused by hand.
    const tabTo = async (id) => {
      for (let tabs = 0; tabs < 150; tabs += 1) {
        if ((await page.evaluate(() => document.activeElement?.id)) === id) return;
        await page.keyboard.press("Tab");
      }
      assert.fail(`no way to ${id} by keyboard`);
    };
    await tabTo("lesson-pick");
    await page.keyboard.press("Home");
    for (const [place, id] of all.entries()) {
      await tabTo("lesson-pick");
      if (place > 0) await page.keyboard.press("ArrowDown");
      assert.equal(await page.inputValue("#lesson-pick"), id);
      await tabTo("lesson-start");
      assert.equal(await answered(page, () => page.keyboard.press("Enter")), 200);
      await started(page);
      await tabTo("lesson-step");
      for (let left = (await progress(page)).all; left > 0; left -= 1) {
        const { done } = await progress(page);
        assert.equal(await answered(page, () => page.keyboard.press("Space")), 200);
        await until(async () => (await progress(page)).done === done + 1, `${id}, step ${done + 1}`);
      }
      await ended(page, id);
    }
    assert.deepEqual(page.mistakes, []);
  });
});

test("off the path and back", async () => {
  const page = await open(browser, lock.address);
  await page.selectOption("#lesson-pick", "03-wrong-codes");
  await answered(page, () => page.click("#lesson-start"));
  await started(page);
  await answered(page, () => page.click("#lesson-step"));
  await answered(page, () => page.click("#lesson-step"));
  await until(async () => (await progress(page)).done === 2, "two steps");
  const words = await page.textContent("#words");
  // The trainer does something of their own.
  await answered(page, () => page.click("#battery"));
  await page.waitForSelector("#lesson-left:not([hidden])");
  assert.equal(await page.getAttribute("#lesson-step", "aria-disabled"), "true");
  await answered(page, () => page.click("#lesson-rejoin"));
  await page.waitForSelector("#lesson-left", { state: "hidden" });
  await until(async () => (await page.textContent("#words")) === words, "the lock as it was");
  assert.equal((await progress(page)).done, 2);
  // And ends the lesson: the lock stays.
  await answered(page, () => page.click("#lesson-leave"));
  await page.waitForSelector("#lesson", { state: "hidden" });
  assert.equal(await page.textContent("#words"), words);
});
