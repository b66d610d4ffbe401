"use strict";
const data = JSON.parse(document.getElementById("data").textContent);
const at = (id) => document.getElementById(id);
const SVG = "http://www.w3.org/2000/svg";

function drawn(name, values) {
  const one = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(values)) one.setAttribute(key, value);
  return one;
}

function line(words) {
  const one = document.createElement("li");
  one.textContent = words;
  return one;
}

function row([name, ratio, bar, word, figures]) {
  const one = line(data.names[name]);
  const used = document.createElement("b");
  used.textContent = ` ${ratio} ${word}`;
  one.append(used);
  if (bar !== null) {
    const picture = drawn("svg", { viewBox: "0 0 130 12", width: 130, height: 12, "aria-hidden": "true" });
    picture.append(drawn("rect", { x: 0, y: 2, height: 8, width: Math.min(bar, 100) }));
    if (bar > 100) picture.append(drawn("rect", { x: 100, y: 2, height: 8, width: bar - 100, class: "over" }));
    picture.append(drawn("rect", { x: 99, y: 0, height: 12, width: 2, class: "limit" }));
    one.append(picture);
  }
  const small = document.createElement("span");
  small.className = "small";
  small.textContent = figures;
  one.append(small);
  return one;
}

function show() {
  const one = data.gaps[Number(at("slider").value)];
  at("gap").textContent = one.gap;
  at("slider").setAttribute("aria-valuetext", one.gap);
  at("verdict").textContent = one.verdict;
  at("verdict").className = one.status;
  at("lengths").textContent = `To scale: ${one.lengths}.`;
  at("drawing").setAttribute("aria-label", `Section to scale: ${one.lengths}`);
  at("drawing").replaceChildren(...Object.entries(one.drawn).map(([name, points]) =>
    drawn("polygon", { points, class: name.replace(/\d/g, "") })));
  for (const [place, words] of one.named) {
    const [anchor, x, y] = place.split(/[ ,]/);
    const text = drawn("text", { x, y, "text-anchor": anchor });
    text.textContent = words;
    at("drawing").append(text);
  }
  at("needs").replaceChildren(...one.needs.map(line));
  at("rows").replaceChildren(...one.rows.map(row));
  at("cautions").replaceChildren(...one.cautions.map((i) => line(`Caution: ${data.texts[i]}.`)));
}

at("one").hidden = false;
at("all").open = false;
at("slider").addEventListener("input", show);
show();
