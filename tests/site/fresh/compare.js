// Compares the parts of an open page with the same parts as they were written for other numbers.
// Returns what differs, the first few of each part, and how much was compared. Figures of circuits
// keep their layout, so of them the texts are compared, element by element, and their words.
(parts) => {
  const OWN = ["data-v", "data-x", "open"];
  const squeezed = (text) => text.replace(/\s+/g, " ");
  const laidOut = (node) => node.matches("svg.sw-figure") && node.querySelector(
    "[data-element], [data-source], .sw-source, .sw-wire[data-junction]");
  const words = (svg) => ["title", "desc"].map((name) => svg.querySelector(name).textContent);
  const drawn = (svg) => {
    const lines = [...svg.querySelectorAll("text")].map((text) => {
      const of = text.closest("[data-element], [data-source]");
      const owner = of ? of.dataset.element || of.dataset.source : text.dataset.junction || "";
      return `${owner}: ${text.textContent}`;
    });
    const keys = [...svg.querySelectorAll("[data-q]")].map((n) => `${n.dataset.q}: ${n.textContent}`);
    return { words: words(svg), lines: lines.sort(), keys: keys.sort() };
  };
  const written = (node, out) => {
    const last = out.length - 1;
    if (node.nodeType === 3) {
      if (out.length && typeof out[last] === "string" && out[last].startsWith("#")) out[last] += node.data;
      else out.push("#" + node.data);
      return out;
    }
    if (node.nodeType !== 1 || node.matches("script, [display=none]")) return out;
    if (laidOut(node)) return out.push(drawn(node)), out;
    const attributes = [...node.attributes].filter((a) => !OWN.includes(a.name))
      .map((a) => `${a.name}="${a.value}"`).sort();
    out.push(`<${[node.localName, node.namespaceURI.slice(-6), ...attributes].join(" ")}>`);
    node.childNodes.forEach((child) => written(child, out));
    out.push("</>");
    return out;
  };
  const flat = (root) => {
    const out = [];
    root.childNodes.forEach((child) => written(child, out));
    return out.map((one) => typeof one === "string" && one.startsWith("#") ? squeezed(one) : one)
      .filter((one) => one !== "#" && one !== "# ");
  };
  const alike = (is, should) => {
    if (is === should) return true;
    if (!is || !should || typeof is === "string" || typeof should === "string") return false;
    return JSON.stringify(is) === JSON.stringify(should);
  };
  const told = (one) => typeof one === "string" ? one : JSON.stringify(one);
  const faults = [];
  let compared = 0;
  for (const [id, html] of Object.entries(parts)) {
    const there = document.querySelector(`.sw-part[data-part="${id}"]`);
    const wanted = new DOMParser().parseFromString(html, "text/html").body;
    const [is, should] = [flat(there || document.createElement("p")), flat(wanted)];
    compared += should.length;
    for (let at = 0, many = 0; at < Math.max(is.length, should.length) && many < 3; at++) {
      if (alike(is[at], should[at])) continue;
      faults.push(`${id} ${at}: is ${told(is[at])} but should be ${told(should[at])}`);
      many++;
    }
  }
  return { faults, compared };
}
