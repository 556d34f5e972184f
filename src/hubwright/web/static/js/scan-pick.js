// Which place of a scan a tap means. Nothing here knows the page: numbers in, the number of the place out.

// The place nearest to a spot of the screen; -1 where there is none within reach. Of a mesh it is the corner, nearest on the
// screen, of the triangle in front that covers the spot; of points, or beside a mesh, the one in front nearest on the screen.
// places: x, y, z of each; faces: three places of each triangle, or null; matrix: sixteen numbers, column by column, to the
// screen's own axes; size: of the screen in px; spot: where was tapped, in px.
export function nearest({ places, faces }, matrix, [wide, high], [x, y], reach) {
  const seen = onScreen(places, matrix, wide, high), { px, py, depth } = seen;
  const off = (i) => Math.hypot(px[i] - x, py[i] - y);
  const hit = faces ? covering(faces, seen, x, y) : -1;
  if (hit >= 0) return [0, 1, 2].map((k) => faces[hit + k]).reduce((best, i) => (off(i) < off(best) ? i : best));
  let front = Infinity, best = -1, least = reach;
  for (let i = 0; i < depth.length; i++) if (depth[i] < front && off(i) <= reach) front = depth[i];
  for (let i = 0; i < depth.length; i++) {
    if (depth[i] > front * 1.03) continue;
    const away = off(i);
    if (away <= least) { least = away; best = i; }
  }
  return best;
}

// Every place in px, and how far before the eye it lies; behind the eye it is infinitely far.
function onScreen(places, m, wide, high) {
  const count = places.length / 3, px = new Float32Array(count), py = new Float32Array(count), depth = new Float32Array(count);
  for (let i = 0; i < count; i++) {
    const a = places[3 * i], b = places[3 * i + 1], c = places[3 * i + 2];
    const w = m[3] * a + m[7] * b + m[11] * c + m[15];
    px[i] = ((m[0] * a + m[4] * b + m[8] * c + m[12]) / w + 1) / 2 * wide;
    py[i] = (1 - (m[1] * a + m[5] * b + m[9] * c + m[13]) / w) / 2 * high;
    depth[i] = w > 0 ? w : Infinity;
  }
  return { px, py, depth };
}

// Where in the list the triangle in front begins that covers a spot; its depth there from 1/w, which is linear on the screen.
function covering(faces, { px, py, depth }, x, y) {
  let best = -1, near = Infinity;
  for (let f = 0; f < faces.length; f += 3) {
    const a = faces[f], b = faces[f + 1], c = faces[f + 2];
    const area = (px[b] - px[a]) * (py[c] - py[a]) - (px[c] - px[a]) * (py[b] - py[a]);
    if (!area || depth[a] === Infinity || depth[b] === Infinity || depth[c] === Infinity) continue;
    const u = ((px[b] - x) * (py[c] - y) - (px[c] - x) * (py[b] - y)) / area;
    const v = ((px[c] - x) * (py[a] - y) - (px[a] - x) * (py[c] - y)) / area;
    if (u < 0 || v < 0 || u + v > 1) continue;
    const away = 1 / (u / depth[a] + v / depth[b] + (1 - u - v) / depth[c]);
    if (away < near) { near = away; best = f; }
  }
  return best;
}
