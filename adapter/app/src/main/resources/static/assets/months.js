// Draws each measure over the months: its share, the centre and the limits.
(function () {
  "use strict";

  const charts = JSON.parse(document.getElementById("months").textContent);
  const place = document.getElementById("charts");
  const style = getComputedStyle(document.documentElement);
  const ink = style.getPropertyValue("--ink").trim();
  const grid = style.getPropertyValue("--line").trim();
  const share = style.getPropertyValue("--link").trim();
  const drawn = [];

  function width() {
    return Math.max(280, place.clientWidth);
  }

  function line(label, stroke, dash, points) {
    return { label, stroke, dash, width: points ? 2 : 1, points: { show: points, size: 7 }, spanGaps: false,
      value: (chart, value) => (value === null || value === undefined ? "–" : value + " %") };
  }

  charts.forEach((it) => {
    const box = document.createElement("section");
    const heading = document.createElement("h3");
    heading.textContent = it.title;
    box.appendChild(heading);
    place.appendChild(box);
    if (it.share.every((one) => one === null)) {
      const none = document.createElement("p");
      none.textContent = "no case was asked in these months";
      box.appendChild(none);
      return;
    }
    const places = it.months.map((month, i) => i);
    const chart = new uPlot(
      {
        width: width(),
        height: 170,
        cursor: { drag: { x: false, y: false } },
        scales: { x: { time: false, range: () => [-0.5, places.length - 0.5] }, y: { range: () => [0, 100] } },
        axes: [
          { stroke: ink, grid: { stroke: grid }, incrs: [1, 2, 3], values: (u, ticks) => ticks.map((one) => it.months[one] || "") },
          { stroke: ink, grid: { stroke: grid }, size: 50 },
        ],
        series: [
          { label: "Month", value: (u, at) => (at === null || at === undefined ? "–" : it.months[at]) },
          line("Share", share, [], true),
          line("All twelve", ink, [6, 4], false),
          line("Lower limit", ink, [2, 3], false),
          line("Upper limit", ink, [2, 3], false),
        ],
      },
      [places, it.share, places.map(() => it.centre), it.lower, it.upper],
      box
    );
    chart.root.setAttribute("role", "group");
    chart.root.setAttribute("aria-label", it.title);
    drawn.push(chart);
  });

  new ResizeObserver(() => drawn.forEach((it) => it.setSize({ width: width(), height: 170 }))).observe(place);
})();
