// The week as a picture: a row a day, 24 hours on the wall.

const SVG = "http://www.w3.org/2000/svg";
const LEFT = 108;
const WIDE = 720;
const ROW = 26;
const TOP = 20;
const DAY = 86_400;

function node(name, attributes, text) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  if (text !== undefined) made.textContent = text;
  return made;
}

const x = (second) => LEFT + (second / DAY) * WIDE;
const hhmm = (second) => {
  const minutes = Math.floor(second / 60);
  const two = (n) => String(n).padStart(2, "0");
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
};

/** What is open on a day, in words. */
function words(day) {
  const open = day.open.map(([from, to]) => `${hhmm(from)} to ${hhmm(to)}`).join(", ");
  const notes = day.notes.length > 0 ? ` (${day.notes.join(", ")})` : "";
  return `${day.day}: ${open === "" ? "closed" : open}${notes}`;
}

export function showWeek(week) {
  const picture = document.getElementById("week-picture");
  const legend = document.getElementById("week-legend");
  if (week === null) {
    picture.replaceChildren();
    legend.textContent = "";
    return;
  }
  document.getElementById("week-of").textContent = `of timetable ${week.follows}`.replace(
    "timetable always",
    "somebody who follows no timetable",
  );
  const height = TOP + ROW * week.days.length + 6;
  const svg = node("svg", {
    viewBox: `0 0 ${LEFT + WIDE + 12} ${height}`,
    role: "img",
    "aria-label": week.days.map(words).join("; "),
  });
  for (let hour = 0; hour <= 24; hour += 3) {
    const at = x(hour * 3_600);
    svg.append(node("line", { class: "hour", x1: at, x2: at, y1: TOP, y2: height - 6 }));
    svg.append(node("text", { class: "label", x: at, y: 13, "text-anchor": "middle" }, hour));
  }
  week.days.forEach((day, place) => {
    const y = TOP + place * ROW;
    const today = place === week.now.day;
    const name = { class: today ? "label today" : "label", x: LEFT - 8, y: y + 17, "text-anchor": "end" };
    svg.append(node("text", name, day.day));
    svg.append(node("rect", { class: "night", x: LEFT, y: y + 3, width: WIDE, height: ROW - 6 }));
    for (const [from, to] of day.open) {
      const rect = node("rect", { class: "open", x: x(from), y: y + 3, width: x(to) - x(from), height: ROW - 6 });
      rect.append(node("title", {}, `open ${hhmm(from)} to ${hhmm(to)}`));
      svg.append(rect);
    }
    if (day.notes.length > 0) {
      svg.append(node("text", { class: "note", x: LEFT + WIDE - 6, y: y + 17, "text-anchor": "end" }, day.notes.join(", ")));
    }
  });
  for (const run of week.runs) {
    run.days.forEach((pieces, place) => {
      for (const [from, to] of pieces) {
        const width = Math.max(6, x(to) - x(from));
        const rect = node("rect", { class: `run ${run.kind}`, x: x(from), y: TOP + place * ROW + 6, width, height: ROW - 12 });
        rect.append(node("title", {}, run.says));
        svg.append(rect);
      }
    });
  }
  const now = x(week.now.second);
  const y = TOP + week.now.day * ROW;
  svg.append(node("path", { class: "now", d: `M${now} ${y - 1}V${y + ROW - 1}M${now - 4} ${y - 3}h8l-4 5z` }));
  picture.replaceChildren(svg);
  const runs = week.runs.map((run) => run.says);
  legend.textContent = ["Filled: open. The mark is now.", ...runs.map((says) => `Striped: ${says}.`)].join(" ");
}
