// Reads a drawing back: by its own ticks, is each point where the numbers say it is?

/** The straight line through ticks: from value to place. */
function scale(ticks, offset = 0) {
  const a = ticks[0], b = ticks[ticks.length - 1];
  const slope = (b.at - a.at) / (b.value - a.value);
  return (value) => a.at + offset + slope * (value - a.value);
}

const numbers = (d) => [...d.matchAll(/-?\d+(?:\.\d+)?/g)].map((m) => parseFloat(m[0]));

/** Faults of one drawing against the picture of the JSON, within half a unit of the drawing. */
export function readBack(drawing, picture) {
  const faults = [];
  let checked = 0;
  const near = (got, wanted, what) => {
    ++checked;
    if (!(Math.abs(got - wanted) <= 0.5)) faults.push(`${what}: drawn at ${got}, not ${wanted}`);
  };
  if (picture.bars) {
    const lengths = drawing.series.map((s) => { const n = numbers(s.d); return n[2] - n[0]; });
    const most = Math.max(...picture.bars.map((b) => b.value));
    const longest = Math.max(...lengths);
    picture.bars.forEach((b, i) => near(lengths[i], longest * b.value / most, b.label));
    return {faults, checked};
  }
  const x = scale(drawing.x);
  if (picture.lanes) {
    const {key, rows} = picture.lanes;
    const inside = (value) => value >= picture.x.low && value <= picture.x.high;
    // The last marker explains the others in the key.
    const marks = drawing.marks.slice(0, -1);
    const times = rows.flatMap((row) => row.at.filter(inside));
    if (marks.length !== times.length) faults.push(`${marks.length} markers for ${times.length} times`);
    else times.forEach((at, i) => near(marks[i].x, x(at), key + ' taken'));
    const drawnAs = (name) => drawing.series.filter((s) => s.key === name).map((s) => numbers(s.d));
    const bars = drawnAs(key), limits = drawnAs(key + '-limit');
    const warm = rows.filter((row) => row.from !== undefined);
    const limited = rows.filter((row) => row.limit !== undefined && inside(row.limit));
    if (bars.length !== warm.length) faults.push(`${bars.length} bars for ${warm.length}`);
    else warm.forEach((row, i) => { near(bars[i][0], x(row.from), 'from'); near(bars[i][2], x(row.to), 'to'); });
    if (limits.length !== limited.length) faults.push(`${limits.length} limits for ${limited.length}`);
    else limited.forEach((row, i) => near(limits[i][0], x(row.limit), 'limit'));
    return {faults, checked};
  }
  const y = scale(drawing.y, -3.5);  // the base line of a tick's number lies below its middle
  const pathOf = (key) => drawing.series.filter((s) => s.key === key);
  for (const curve of picture.curves ?? []) {
    const n = numbers(pathOf(curve.key)[0].d);
    if (n.length !== 2 * curve.x.length) faults.push(`${curve.key}: ${n.length / 2} points`);
    curve.x.forEach((value, i) => {
      near(n[2 * i], x(value), curve.key + ' x');
      near(n[2 * i + 1], y(curve.y[i]), curve.key + ' y');
    });
  }
  for (const band of picture.bands ?? []) {
    const n = numbers(pathOf(band.key)[0].d);
    const last = band.x.length - 1;
    band.x.forEach((value, i) => {
      near(n[2 * i], x(value), band.key);
      near(n[2 * i + 1], y(band.low[i]), band.key + ' low');
      near(n[2 * (2 * last + 1 - i) + 1], y(band.high[i]), band.key + ' high');
    });
  }
  (picture.points ?? []).forEach((points, s) => {
    const marks = drawing.marks.filter((m) => m.css === `mark mark${s}`);
    let m = 0;
    points.x.forEach((value, i) => {
      const inside = value >= picture.x.low && value <= picture.x.high &&
                     points.y[i] >= picture.y.low && points.y[i] <= picture.y.high;
      if (!inside) return;
      near(marks[m].x, x(value), points.key + ' x');
      near(marks[m].y, y(points.y[i]), points.key + ' y');
      ++m;
    });
    // One more explains the series in the key.
    if (marks.length !== m + 1) faults.push(`${points.key}: ${marks.length} markers for ${m} points`);
  });
  for (const window of picture.windows ?? []) {
    const n = numbers(pathOf(window.key)[0].d);
    if (window.high !== undefined && window.high <= picture.y.high) near(n[1], y(window.high), 'window');
    if (window.low !== undefined && window.low >= picture.y.low) near(n[3], y(window.low), 'window');
  }
  (picture.strip?.pieces ?? []).forEach((piece, i) => {
    const n = numbers(pathOf(picture.strip.key)[i].d);
    near(n[0], x(piece.from), 'strip');
    near(n[2], x(piece.to), 'strip');
  });
  if (picture.regions) {
    // Every run of the drawing covers cells of one kind, and the runs cover every known cell once.
    const rows = picture.regions.likeliest, columns = rows[0].length;
    const left = x(picture.x.low), right = x(picture.x.high);
    const bottom = y(picture.y.low), top = y(picture.y.high);
    const seen = rows.map(() => new Array(columns).fill(0));
    for (const path of pathOf(picture.regions.key)) {
      const kinds = new Set();
      for (const run of path.d.split('z').filter(Boolean)) {
        const [x0, y0, x1, y1] = numbers(run);
        const at = (value) => Math.round((value - left) / (right - left) * columns);
        const row = Math.round((bottom - y1) / (bottom - top) * rows.length);
        near(y0, bottom + (top - bottom) * (row + 1) / rows.length, 'row');
        for (let c = at(x0); c < at(x1); ++c) {
          ++seen[row][c];
          kinds.add(rows[row][c]);
        }
      }
      if (kinds.size !== 1) faults.push(`one fill for ${[...kinds].join(' and ')}`);
    }
    rows.forEach((row, r) => row.forEach((kind, c) => {
      ++checked;
      if (seen[r][c] !== (kind === 'not foretold' ? 0 : 1)) faults.push(`cell ${c}, ${r} drawn ${seen[r][c]} times`);
    }));
  }
  return {faults, checked};
}
