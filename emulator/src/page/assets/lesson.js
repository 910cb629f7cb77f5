// A lesson: its steps, what was expected and what happened.

const $ = (id) => document.getElementById(id);

function element(name, text, className) {
  const made = document.createElement(name);
  if (text !== undefined) made.textContent = text;
  if (className !== undefined) made.className = className;
  return made;
}

export function showLesson(lesson) {
  $("lesson").hidden = lesson === null;
  if (lesson === null) return;
  const { steps, done } = lesson;
  $("lesson-title").textContent = lesson.title;
  $("lesson-teaches").textContent = lesson.teaches ?? "";
  $("lesson-left").hidden = !lesson.left;
  const next = steps[done];
  const last = steps[done - 1];
  const over = next === undefined;
  $("lesson-say").textContent = over
    ? "The lesson is over. Go on as you like, or start it again."
    : (last?.say ?? (done === 0 ? lesson.teaches : "")) || "";
  const step = $("lesson-step");
  step.textContent = over ? "The lesson is over" : `Next step (${done + 1} of ${steps.length})`;
  step.dataset.over = String(over || lesson.left);
  step.setAttribute("aria-disabled", step.dataset.over);
  $("lesson-rejoin").hidden = !lesson.left;
  const list = $("lesson-steps");
  list.replaceChildren(...steps.map((each, place) => row(each, place, done)));
  // The list alone scrolls; the page stays where the reader has it.
  const current = list.querySelector("[aria-current]") ?? list.lastElementChild;
  list.scrollTop = current.offsetTop - list.offsetTop - list.clientHeight / 2;
}

function row(step, place, done) {
  const item = element("li");
  item.className = place < done ? "done" : place === done ? "next" : "later";
  if (place === done) item.setAttribute("aria-current", "step");
  if (step.say !== null) item.append(element("p", step.say));
  if (step.act !== null) item.append(element("p", step.act, "act"));
  if (step.checks !== null && step.checks.length > 0) {
    const list = element("ul", undefined, "checks");
    for (const check of step.checks) {
      const says = check.met
        ? `✓ ${check.key}: ${check.expected}`
        : `✗ ${check.key}: expected ${check.expected}, seen ${check.seen}`;
      list.append(element("li", says, check.met ? "met" : "missed"));
    }
    item.append(list);
  }
  return item;
}
