// What a page measures of itself, as data; run inside the page.
() => {
  const shown = (node) => node.getClientRects().length > 0 && getComputedStyle(node).visibility === "visible";
  const words = (text) => text.replace(/\s+/g, " ").trim();
  const known = new Map();  // what lies behind each element: its background and those of its ancestors, the nearest first
  const ground = (node) => {
    if (!node) return { behind: [], opacity: 1 };
    if (!known.has(node)) {
      const looks = getComputedStyle(node), under = ground(node.parentElement);
      const clear = looks.backgroundColor === "rgba(0, 0, 0, 0)";
      known.set(node, {
        behind: clear ? under.behind : [looks.backgroundColor, ...under.behind],
        opacity: under.opacity * parseFloat(looks.opacity),
      });
    }
    return known.get(node);
  };
  const texts = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const node = walker.currentNode.parentElement;
    if (!words(walker.currentNode.data) || !shown(node)) continue;
    const looks = getComputedStyle(node);
    texts.push({
      text: words(walker.currentNode.data), ink: node.closest("svg") ? looks.fill : looks.color,
      ...ground(node),
    });
  }
  const wide = [];
  for (const node of document.querySelectorAll("body, body *")) {
    if (node.closest("svg") && node.tagName !== "svg" || !shown(node)) continue;
    const name = `${node.tagName.toLowerCase()}${node.className && node.className.baseVal === undefined ? "." + node.className : ""}`;
    const hides = getComputedStyle(node).overflowY !== "visible";
    if (node.clientWidth && node.scrollWidth > node.clientWidth + 1)
      wide.push(`${name}: ${node.scrollWidth} px in ${node.clientWidth}: ${words(node.textContent).slice(0, 60)}`);
    if (hides && node.clientHeight && node.scrollHeight > node.clientHeight + 1)
      wide.push(`${name}: ${node.scrollHeight} px high in ${node.clientHeight}: ${words(node.textContent).slice(0, 60)}`);
  }
  const page = document.documentElement;
  if (page.scrollWidth > page.clientWidth) wide.push(`the page: ${page.scrollWidth} px in ${page.clientWidth}`);
  const rule = [...document.styleSheets].flatMap((sheet) => [...sheet.cssRules])
    .find((one) => one instanceof CSSPageRule && one.style.marginLeft);
  const margin = (side) => rule ? rule.style.getPropertyValue(`margin-${side}`) : "0";
  return {
    texts, wide,
    words: words([...document.body.querySelectorAll("*")].length ? document.body.innerText : "").split(" ").filter(Boolean),
    headings: [...document.querySelectorAll("h1, h2, h3, h4, h5, h6")].map((one) => [Number(one.tagName[1]), words(one.innerText)]),
    margins: ["top", "right", "bottom", "left"].map(margin),
  };
}
