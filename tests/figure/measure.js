// Measures every figure of the page as drawn: text against strokes and other text, wires
// against wires and symbols. Returns one report for each figure, or for each that is chosen.
(chosen) => {
  const NEAR = 0.02;
  const lines = (element) => {
    const paths = [];
    for (const part of element.getAttribute("d").split("M").slice(1)) {
      const points = part.replace("Z", "").split("L").map((p) => p.split(" ").map(Number));
      if (part.includes("Z")) points.push(points[0]);
      for (let i = 1; i < points.length; i++) paths.push([...points[i - 1], ...points[i]]);
    }
    return paths;
  };
  const round = (cx, cy, r) => {
    const points = [...Array(25).keys()].map((i) => (i * Math.PI) / 12);
    const at = (a) => [cx + r * Math.cos(a), cy + r * Math.sin(a)];
    return points.slice(1).map((a, i) => [...at(points[i]), ...at(a)]);
  };
  const sides = (element) => {
    const [x, y, w, h] = ["x", "y", "width", "height"].map((n) => +element.getAttribute(n));
    return [[x, y, x + w, y], [x + w, y, x + w, y + h], [x + w, y + h, x, y + h], [x, y + h, x, y]];
  };
  const segments = (svg, element) => {
    const [cx, cy, r] = ["cx", "cy", "r"].map((n) => +element.getAttribute(n));
    const found = element.tagName === "path" ? lines(element)
      : element.tagName === "circle" ? round(cx, cy, r) : sides(element);
    const m = svg.getScreenCTM().inverse().multiply(element.getScreenCTM());
    const width = parseFloat(getComputedStyle(element).strokeWidth) / 2;
    const half = getComputedStyle(element).stroke === "none" ? 0 : width;
    return found.map(([a, b, c, d]) => ({
      ends: [m.a * a + m.c * b + m.e, m.b * a + m.d * b + m.f,
             m.a * c + m.c * d + m.e, m.b * c + m.d * d + m.f],
      half, junction: element.dataset.junction,
      kind: element.getAttribute("class") || (element.closest(".sw-ground") ? "ground" : "symbol"),
    }));
  };
  // Liang and Barsky's clipping: whether any of a segment lies in a box.
  const inside = ([x1, y1, x2, y2], [left, top, right, bottom]) => {
    let from = 0, to = 1;
    for (const [p, q] of [[x1 - x2, x1 - left], [x2 - x1, right - x1],
                          [y1 - y2, y1 - top], [y2 - y1, bottom - y1]]) {
      if (p === 0) { if (q < 0) return false; }
      else if (p < 0) from = Math.max(from, q / p);
      else to = Math.min(to, q / p);
    }
    return from <= to;
  };
  const thick = (segment, grown) => {
    const [x1, y1, x2, y2] = segment.ends;
    return [Math.min(x1, x2) - grown, Math.min(y1, y2) - grown,
            Math.max(x1, x2) + grown, Math.max(y1, y2) + grown];
  };
  const shortened = (segment) => {
    const [x1, y1, x2, y2] = segment.ends, length = Math.hypot(x2 - x1, y2 - y1);
    const cut = Math.min(0.5, length / 3) / length, dx = (x2 - x1) * cut, dy = (y2 - y1) * cut;
    return { ends: [x1 + dx, y1 + dy, x2 - dx, y2 - dy] };
  };
  const report = (svg) => {
    const texts = [...svg.querySelectorAll("text:not([display=none])")].map((text) => {
      const b = text.getBBox();
      return {
        text: text.textContent,
        length: text.getComputedTextLength(),
        box: [b.x, b.y, b.x + b.width, b.y + b.height],
      };
    });
    const drawn = [...svg.querySelectorAll("path:not([display=none]), circle, rect:not(.sw-hit)")];
    const strokes = drawn.flatMap((element) => segments(svg, element));
    const wires = strokes.filter((s) => s.kind === "sw-wire");
    const symbols = strokes.filter((s) => s.kind === "symbol");
    const faults = [];
    texts.forEach(({ text, box }, i) => {
      for (const other of texts.slice(i + 1)) {
        const [a, b] = [box, other.box];
        if (a[0] < b[2] - NEAR && b[0] < a[2] - NEAR && a[1] < b[3] - NEAR && b[1] < a[3] - NEAR)
          faults.push(`text ${text} lies on text ${other.text}`);
      }
      for (const stroke of strokes) {
        const near = stroke.half - NEAR;
        const room = [box[0] - near, box[1] - near, box[2] + near, box[3] + near];
        if (inside(stroke.ends, room)) faults.push(`text ${text} lies on ${stroke.kind}`);
      }
      const view = svg.viewBox.baseVal;
      if (box[0] < view.x || box[1] < view.y || box[2] > view.x + view.width
          || box[3] > view.y + view.height) faults.push(`text ${text} lies outside`);
    });
    wires.forEach((wire, i) => {
      for (const other of wires.slice(i + 1)) {
        const same = wire.junction === other.junction;
        const [a, b] = same ? [shortened(wire), shortened(other)] : [wire, other];
        if (inside(a.ends, thick(b, NEAR)))
          faults.push(`wires of ${wire.junction} and ${other.junction} cross`);
      }
      for (const symbol of symbols)
        if (inside(shortened(wire).ends, thick(symbol, 0)))
          faults.push(`a wire of ${wire.junction} runs through a symbol`);
      for (const arrow of strokes.filter((s) => s.kind.startsWith("sw-loop")))
        if (inside(wire.ends, thick(arrow, 0)))
          faults.push(`a loop arrow lies on a wire of ${wire.junction}`);
    });
    const loose = strokes.filter((s) => s.kind.startsWith("sw-loop") || s.kind === "sw-arrow");
    for (const arrow of loose)
      for (const symbol of symbols)
        if (inside(arrow.ends, thick(symbol, 0))) faults.push("an arrow lies on a symbol");
    const values = [...svg.querySelectorAll("[data-q]")].map((n) => [n.dataset.q, n.textContent]);
    const elements = [...svg.querySelectorAll("[data-element]")].map((g) => [
      g.dataset.element, [...g.querySelectorAll("text")].map((t) => t.textContent).join(" ")]);
    return { faults, values, elements, texts, strokes: strokes.length };
  };
  return [...document.querySelectorAll(chosen || ".sw-figure")].map(report);
}
