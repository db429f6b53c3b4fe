// Draws the charts of a case: panels one below the other, with one axis of time and one cursor.
(function () {
  "use strict";

  const course = JSON.parse(document.getElementById("course").textContent);
  const place = document.getElementById("charts");
  const style = getComputedStyle(document.documentElement);
  const ink = style.getPropertyValue("--ink").trim();
  const grid = style.getPropertyValue("--line").trim();
  // Told apart by hue, dash and the shape of a point; none rests on red against green.
  const looks = [
    { stroke: style.getPropertyValue("--first").trim(), dash: [] },
    { stroke: style.getPropertyValue("--second").trim(), dash: [7, 4] },
    { stroke: style.getPropertyValue("--third").trim(), dash: [2, 3] },
  ];
  const charts = [];
  const HEIGHT = 190;

  function table(series) {
    return [series.points.map((it) => it.at), series.points.map((it) => it.value)];
  }

  function begin() {
    const all = course.panels.flatMap((panel) => panel.series.flatMap((it) => it.points.map((one) => one.at)));
    return Math.min(...all, ...course.marks.map((it) => it.at), course.now - 3600);
  }

  const span = [begin(), course.now];

  function drawMarks(chart) {
    const context = chart.ctx;
    context.save();
    course.marks
      .filter((it) => it.weight !== "low" && it.at >= span[0])
      .forEach((mark) => {
        const x = Math.round(chart.valToPos(mark.at, "x", true));
        context.beginPath();
        context.strokeStyle = ink;
        context.globalAlpha = mark.weight === "medicine" ? 0.3 : 0.45;
        context.lineWidth = mark.weight === "high" ? 1.5 : 1;
        context.setLineDash(mark.weight === "high" ? [] : mark.weight === "moderate" ? [6, 4] : [1, 4]);
        context.moveTo(x, chart.bbox.top);
        context.lineTo(x, chart.bbox.top + chart.bbox.height);
        context.stroke();
      });
    context.restore();
  }

  function width() {
    return Math.max(280, place.clientWidth);
  }

  function shown(unit) {
    return (chart, value) => (value === null || value === undefined ? "–" : value + (unit ? " " + unit : ""));
  }

  function draw(panel) {
    const values = panel.series.filter((it) => it.points.length > 0);
    const box = document.createElement("section");
    const heading = document.createElement("h3");
    heading.textContent = panel.title + (panel.unit ? ", " + panel.unit : "");
    box.appendChild(heading);
    place.appendChild(box);
    if (values.length === 0) {
      const none = document.createElement("p");
      none.textContent = "nothing on record";
      box.appendChild(none);
      return;
    }
    const chart = new uPlot(
      {
        width: width(),
        height: HEIGHT,
        tzDate: (seconds) => uPlot.tzDate(new Date(seconds * 1000), "Etc/UTC"),
        cursor: { sync: { key: "course" }, drag: { x: false, y: false } },
        scales: { x: { range: () => span } },
        axes: [
          { stroke: ink, grid: { stroke: grid }, values: [[60, "{HH}:{mm}", "\n{YYYY}-{MM}-{DD}", null, "\n{YYYY}-{MM}-{DD}", null, null, null, 1]] },
          { stroke: ink, grid: { stroke: grid }, size: 60 },
        ],
        series: [{ label: "Time", value: "{YYYY}-{MM}-{DD} {HH}:{mm}" }].concat(
          values.map((it, i) => ({
            label: it.label,
            stroke: looks[i].stroke,
            dash: looks[i].dash,
            width: 2,
            paths: it.isStepped ? uPlot.paths.stepped({ align: 1 }) : undefined,
            points: { show: true, size: 6 - i },
            value: shown(values.length === 1 ? panel.unit : ""),
            spanGaps: false,
          }))
        ),
        hooks: { draw: [drawMarks] },
      },
      uPlot.join(values.map(table), values.map(() => [1])),
      box
    );
    chart.root.tabIndex = 0;
    chart.root.setAttribute("role", "group");
    chart.root.setAttribute("aria-label", heading.textContent + "; arrow keys go from reading to reading");
    chart.root.addEventListener("keydown", (event) => move(chart, event));
    charts.push(chart);
  }

  function move(chart, event) {
    const step = event.key === "ArrowRight" ? 1 : event.key === "ArrowLeft" ? -1 : 0;
    if (step !== 0) {
      const last = chart.data[0].length - 1;
      const from = chart.cursor.idx === null || chart.cursor.idx === undefined ? (step > 0 ? -1 : last + 1) : chart.cursor.idx;
      const to = Math.max(0, Math.min(last, from + step));
      chart.setCursor({ left: chart.valToPos(chart.data[0][to], "x"), top: 10 });
      event.preventDefault();
    }
  }

  course.panels.forEach(draw);
  new ResizeObserver(() => charts.forEach((it) => it.setSize({ width: width(), height: HEIGHT }))).observe(place);
})();
