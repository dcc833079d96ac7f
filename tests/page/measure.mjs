// Runs inside the page: what a reader would see go wrong. Gives sentences, none where all is well.

/** Text that is cut off, runs out of the page, or lies over other text. */
export function layoutFaults() {
  const faults = [];
  const root = document.documentElement;
  if (root.scrollWidth > root.clientWidth + 1)
    faults.push(`the page is ${root.scrollWidth} wide, its window ${root.clientWidth}`);
  const boxes = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const range = document.createRange();
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const parent = node.parentElement;
    if (!node.data.trim() || parent.closest('.hidden, title, desc, style')) continue;
    const style = getComputedStyle(parent);
    if (style.visibility === 'hidden' || parent.closest('thead') && getComputedStyle(parent.closest('thead')).position === 'absolute')
      continue;
    range.selectNodeContents(node);
    for (const rect of range.getClientRects()) {
      if (rect.width < 1 || rect.height < 1) continue;
      // Lines of text stand a little closer than their boxes are tall.
      const inset = rect.height * 0.22;
      const box = {x0: rect.left, x1: rect.right, y0: rect.top + inset, y1: rect.bottom - inset, node};
      if (rect.right > root.clientWidth + 1 || rect.left < -1)
        faults.push(`"${node.data.trim().slice(0, 40)}" runs out of the page`);
      boxes.push(box);
    }
    for (let e = parent; e && e !== document.body; e = e.parentElement) {
      const s = getComputedStyle(e);
      if (s.overflowX !== 'visible' && e.scrollWidth > e.clientWidth + 1 && !(e instanceof SVGElement))
        faults.push(`"${node.data.trim().slice(0, 40)}" is cut off`);
    }
  }
  boxes.sort((a, b) => a.y0 - b.y0);
  for (let i = 0; i < boxes.length; ++i)
    for (let j = i + 1; j < boxes.length && boxes[j].y0 < boxes[i].y1; ++j) {
      const a = boxes[i], b = boxes[j];
      if (a.node === b.node) continue;
      const across = Math.min(a.x1, b.x1) - Math.max(a.x0, b.x0);
      const down = Math.min(a.y1, b.y1) - Math.max(a.y0, b.y0);
      if (across > 1 && down > 1)
        faults.push(`"${a.node.data.trim().slice(0, 30)}" lies over "${b.node.data.trim().slice(0, 30)}"`);
    }
  // Boxes to tick and to write in keep clear of text too.
  for (const input of document.querySelectorAll('input')) {
    const r = input.getBoundingClientRect();
    for (const b of boxes)
      if (Math.min(r.right, b.x1) - Math.max(r.left, b.x0) > 1 &&
          Math.min(r.bottom, b.y1) - Math.max(r.top, b.y0) > 1)
        faults.push(`a box lies over "${b.node.data.trim().slice(0, 30)}"`);
  }
  return [...new Set(faults)].slice(0, 8);
}

/** The smallest text of the pictures, in px as it is shown. */
export function smallestPictureText() {
  let least = Infinity;
  for (const text of document.querySelectorAll('svg text')) {
    const scale = text.getScreenCTM().a;
    least = Math.min(least, scale * parseFloat(getComputedStyle(text).fontSize));
  }
  return least;
}

/** What is drawn, in units of the picture, and its ticks: to be read back against the numbers. */
export function drawn() {
  return [...document.querySelectorAll('svg.pic')].map((svg) => {
    const ticks = (kind, at) => [...svg.querySelectorAll('.' + kind)].map((t) => ({
      value: parseFloat(t.textContent), at: parseFloat(t.getAttribute(at)),
    }));
    const series = [...svg.querySelectorAll('[data-series]')].map((p) => ({
      key: p.dataset.series, css: p.getAttribute('class'), d: p.getAttribute('d'),
    }));
    const marks = [...svg.querySelectorAll('.mark')].map((m) => {
      const box = m.getBBox();
      return {css: m.getAttribute('class'), x: box.x + box.width / 2, y: box.y + box.height / 2};
    });
    return {title: svg.querySelector('title').textContent, x: ticks('x-tick', 'x'),
            y: ticks('y-tick', 'y'), series, marks};
  });
}
