// Picking places on a scan. A tap finds the scanned place nearest to it and writes its three figures, in the file's own unit,
// into the form; the form alone is what counts, and the server says how the scan then lies. Without WebGL the form stands alone.
import { nearest } from "./scan-pick.js";
import { addRow, bringBack, keepDraft } from "./scan-rows.js";

const UNITS = { mm: 0.001, cm: 0.01, m: 1, in: 0.0254 };
const REACH_PX = { mouse: 16, touch: 28, pen: 20 };
const STILL_PX = 7;
const DIGITS = { mm: 2, cm: 3, m: 5, in: 4 };

for (const words of document.querySelectorAll("[data-plain]")) words.hidden = true;
const form = document.querySelector("[data-placing]");
const place = document.querySelector("[data-scan]");
const back = form && bringBack(form);
if (form) keepDraft(form);
if (form && place) show().then(() => { if (back) form.dispatchEvent(new CustomEvent("picked", { bubbles: true })); });

async function show() {
  place.hidden = false;
  try {
    if (!document.createElement("canvas").getContext("webgl2")) throw new Error("no WebGL 2");
    const three = await import(place.dataset.module);
    const loader = new three.GLTFLoader();
    const [scan, wheel] = await Promise.all([loader.loadAsync(place.dataset.scene), loader.loadAsync(place.dataset.wheel)]);
    new Picker(three, scan.scene, wheel.scene);
  } catch (error) {
    console.info("3-D view:", error);
    place.querySelector("[data-says]").textContent = place.dataset.failed;
    place.dataset.drawn = "no";
    for (const part of place.querySelectorAll(".arch, .buttons, .hint")) part.hidden = true;
  }
}

class Picker {
  constructor(three, scan, wheel) {
    this.three = three;
    this.box = place.querySelector("[data-arch]");
    this.canvas = place.querySelector("canvas");
    this.middle = JSON.parse(form.dataset.middle);
    this.renderer = new three.WebGLRenderer({ canvas: this.canvas, antialias: true, preserveDrawingBuffer: true });
    this.renderer.setPixelRatio(Math.min(window.devicePixelRatio || 1, 2));
    this.scene = new three.Scene();
    this.camera = new three.PerspectiveCamera(38, 1, 0.01, 60);
    this.wheel = wheel;
    this.wheel.visible = false;
    this.scan = scan.getObjectByName("scan") ?? scan;
    this.scan.traverse((part) => this.dress(part));
    this.scan.matrixAutoUpdate = false;
    this.scene.add(this.scan, this.wheel);
    this.light();
    this.controls = new three.OrbitControls(this.camera, this.canvas);
    this.controls.enableDamping = false; // nothing moves by itself
    this.controls.addEventListener("change", () => this.draw());
    this.mode = "";
    this.shown = "scanned";
    this.done = [];
    this.spots = [];
    this.balls = [];
    this.bind();
    this.resize();
    this.outcome();
    this.whole();
    if (this.matrix) this.view("car");
    this.pick(this.matrix || form.querySelector('input[name="how"]:checked')?.value === "axes" ? "" : "plane");
    if (back) this.says(place.dataset.back);
    new ResizeObserver(() => this.resize()).observe(this.box);
    place.picker = this; // for whoever drives the page
  }

  // The camera looks along a direction of the scene at one of its places, from so far away.
  lookAt(target, from, away) {
    this.controls.target.fromArray(target);
    this.camera.position.fromArray(from).normalize().multiplyScalar(away).add(this.controls.target);
    this.controls.update();
    this.draw();
  }

  // Where on the screen a place of the file is seen, in px from the corner of the window.
  onScreen(figures) {
    const seen = this.placed(figures.join("; ")).project(this.camera), edge = this.canvas.getBoundingClientRect();
    return [edge.left + (seen.x + 1) / 2 * edge.width, edge.top + (1 - seen.y) / 2 * edge.height];
  }

  dress(part) {
    if (!part.isMesh && !part.isPoints) return;
    this.part = part;
    part.frustumCulled = false;
    this.places = part.geometry.attributes.position.array;
    this.faces = part.geometry.index ? part.geometry.index.array : null;
    part.material = part.material.clone();
    if (part.isPoints) {
      part.material.size = 3 * Math.min(window.devicePixelRatio || 1, 2);
      part.material.sizeAttenuation = false;
    }
  }

  light() {
    const { HemisphereLight, DirectionalLight } = this.three;
    this.scene.add(new HemisphereLight(0xffffff, 0x777777, 2.2));
    for (const [x, y, z] of [[2, 3, 2], [-2, 2, -1], [0, -2, 1]]) {
      const sun = new DirectionalLight(0xffffff, 1.2);
      sun.position.set(x, y, z);
      this.scene.add(sun);
    }
  }

  bind() {
    for (const button of place.querySelectorAll("[data-pick]")) {
      button.hidden = false;
      button.addEventListener("click", () => this.pick(this.mode === button.dataset.pick ? "" : button.dataset.pick));
    }
    for (const button of place.querySelectorAll("[data-show]")) button.addEventListener("click", () => this.view(button.dataset.show));
    place.querySelector("[data-whole]").addEventListener("click", () => this.whole());
    this.back = place.querySelector("[data-undo]");
    this.back.addEventListener("click", () => this.undo());
    this.canvas.addEventListener("pointerdown", (event) => { this.down = event.isPrimary ? [event.clientX, event.clientY] : null; }); // a second finger is no tap
    this.canvas.addEventListener("pointerup", (event) => this.up(event));
    this.canvas.addEventListener("keydown", (event) => this.key(event));
    form.addEventListener("input", () => this.draw());
    form.addEventListener("change", (event) => {
      if (event.target.id === "f-sure") event.stopPropagation(); // an answer to the outcome is no reason to draw it anew
      if (event.target.name === "unit") { this.lay(); this.whole(); }
    }, true);
    document.addEventListener("htmx:afterSwap", () => this.outcome());
    matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => this.draw());
  }

  up(event) {
    if (!this.down || !event.isPrimary || event.button !== 0) return;
    const moved = Math.hypot(event.clientX - this.down[0], event.clientY - this.down[1]);
    this.down = null;
    if (moved > STILL_PX) return;
    const edge = this.canvas.getBoundingClientRect();
    this.at(event.clientX - edge.left, event.clientY - edge.top, REACH_PX[event.pointerType] ?? REACH_PX.mouse);
  }

  key(event) {
    if (event.key === "Enter") {
      event.preventDefault();
      this.at(this.box.clientWidth / 2, this.box.clientHeight / 2, REACH_PX.touch);
      return;
    }
    const turns = { ArrowLeft: [-0.12, 0], ArrowRight: [0.12, 0], ArrowUp: [0, -0.12], ArrowDown: [0, 0.12] };
    const nearer = { "+": 0.88, "=": 0.88, "-": 1.14 };
    if (!(event.key in turns) && !(event.key in nearer)) return;
    event.preventDefault();
    const away = this.camera.position.clone().sub(this.controls.target);
    if (event.key in nearer) {
      away.multiplyScalar(nearer[event.key]);
    } else {
      const [round, up] = turns[event.key];
      const size = away.length(), level = Math.atan2(away.x, away.z) + round;
      const tilt = Math.min(Math.max(Math.acos(away.y / size) + up, 0.02), Math.PI - 0.02);
      away.set(Math.sin(tilt) * Math.sin(level), Math.cos(tilt), Math.sin(tilt) * Math.cos(level)).multiplyScalar(size);
    }
    this.camera.position.copy(this.controls.target).add(away);
    this.controls.update();
    this.draw();
  }

  pick(mode) {
    this.mode = mode;
    for (const button of place.querySelectorAll("[data-pick]")) button.setAttribute("aria-pressed", String(button.dataset.pick === mode));
    const next = mode && this.row(mode);
    this.says(next ? this.called(next) : place.dataset.choose);
  }

  called(input) {
    const label = input.labels[0];
    return `${label.querySelector(".called").textContent} ${label.querySelector(".mark").textContent}`.trim();
  }

  // The box the next pick goes into: the first empty one of a list (one more is made where all are full), else the only one.
  row(mode) {
    const boxes = [...form.querySelectorAll(`input[name="${mode}"]`)];
    const empty = boxes.find((box) => !box.value.trim());
    if (empty || mode === "rear" || mode === "front") return empty ?? boxes[0];
    return addRow(form, mode);
  }

  at(x, y, reach) {
    if (!this.mode) { this.says(place.dataset.choose); return; }
    const found = this.nearest(x, y, reach);
    if (found < 0) { this.says(place.dataset.missed); return; }
    const box = this.row(this.mode), mode = this.mode, before = box.value;
    const digits = DIGITS[this.unit()] ?? 4;
    const figures = [0, 1, 2].map((axis) => this.places[3 * found + axis] * 1000 + this.middle[axis]);
    const mark = document.documentElement.lang === "de" ? "," : ".";
    box.value = figures.map((value) => String(Number(value.toFixed(digits))).replace(".", mark)).join("; ");
    this.done.push({ box, before, mode });
    this.back.disabled = false;
    this.last = box;
    this.pick(mode === "rear" ? "front" : mode);
    this.told();
  }

  undo() {
    const last = this.done.pop();
    if (!last) return;
    last.box.value = last.before;
    this.last = this.done.at(-1)?.box;
    this.back.disabled = !this.done.length;
    this.pick(last.mode);
    this.told();
  }

  told() {
    this.draw();
    form.dispatchEvent(new CustomEvent("picked", { bubbles: true }));
  }

  nearest(x, y, reach) {
    this.scan.updateMatrixWorld(true);
    const matrix = this.camera.projectionMatrix.clone().multiply(this.camera.matrixWorldInverse).multiply(this.part.matrixWorld);
    return nearest({ places: this.places, faces: this.faces }, matrix.elements, [this.box.clientWidth, this.box.clientHeight], [x, y], reach);
  }

  unit() { return form.querySelector('input[name="unit"]:checked')?.value; }

  // Metres of the scene for one metre of the file drawn as if its unit were the metre of glTF divided by 1000.
  scale() {
    const unit = UNITS[this.unit()];
    if (unit) return unit * 1000;
    const size = new this.three.Box3().setFromBufferAttribute(this.part.geometry.attributes.position).getSize(new this.three.Vector3()).length();
    return size > 0 ? 1 / size : 1;
  }

  lay() {
    const scale = this.scale(), matrix = this.scan.matrix;
    if (this.shown === "car" && this.matrix) matrix.fromArray(this.matrix);
    else matrix.identity();
    matrix.scale(new this.three.Vector3(scale, scale, scale));
    this.scan.updateMatrixWorld(true);
    this.wheel.visible = this.shown === "car";
    this.part.material.transparent = this.shown === "car";
    this.part.material.opacity = this.shown === "car" ? 0.55 : 1;
    this.part.material.needsUpdate = true;
  }

  // What the server said: whether the scan can be shown on the car, and where.
  outcome() {
    const text = document.getElementById("outcome")?.dataset.matrix;
    this.matrix = text ? JSON.parse(text) : null;
    place.querySelector('[data-show="car"]').disabled = !this.matrix;
    if (!this.matrix && this.shown === "car") this.view("scanned");
    else { this.lay(); this.draw(); }
  }

  view(name) {
    this.shown = name;
    for (const button of place.querySelectorAll("[data-show]")) button.setAttribute("aria-pressed", String(button.dataset.show === name));
    this.lay();
    this.whole();
  }

  // All of it in sight: as scanned from a slant, on the car from outside and a little from behind.
  whole() {
    this.lay();
    const { Box3, Vector3 } = this.three;
    const frame = new Box3().setFromBufferAttribute(this.part.geometry.attributes.position).applyMatrix4(this.part.matrixWorld);
    const middle = frame.getCenter(new Vector3()), size = Math.max(frame.getSize(new Vector3()).length(), 0.05);
    const out = place.dataset.side === "left" ? -1 : 1; // glTF: the left of the car is -X, its front -Z
    const from = this.shown === "car" ? new Vector3(1.0 * out, 0.35, 0.45) : new Vector3(0.7, 0.5, 0.9);
    this.controls.target.copy(middle);
    this.camera.near = size / 200;
    this.camera.far = size * 20;
    this.controls.minDistance = size / 30;
    this.controls.maxDistance = size * 6;
    this.camera.position.copy(middle).add(from.normalize().multiplyScalar(size * (this.box.clientWidth < 500 ? 1.7 : 1.25)));
    this.camera.updateProjectionMatrix();
    this.controls.update();
    this.draw();
  }

  says(words) { place.querySelector("[data-says]").textContent = words; }

  resize() {
    const { clientWidth, clientHeight } = this.box;
    if (!clientWidth || !clientHeight) return;
    this.renderer.setSize(clientWidth, clientHeight, false);
    this.camera.aspect = clientWidth / clientHeight;
    this.camera.updateProjectionMatrix();
    this.draw();
  }

  draw() {
    this.scene.background = new this.three.Color(getComputedStyle(this.box).backgroundColor);
    this.leftOut();
    this.renderer.render(this.scene, this.camera);
    this.label();
    place.dataset.drawn = "yes";
  }

  // A place typed or picked, in the scene; null where it is none.
  placed(text) {
    let parts = text.trim().split(/\s*;\s*/).filter(Boolean);
    if (parts.length === 1) parts = text.trim().split(/\s+/);
    const values = parts.map((part) => Number(part.replace(",", ".").replace("−", "-")));
    if (values.length !== 3 || values.some((value) => !Number.isFinite(value))) return null;
    const [x, y, z] = values.map((value, axis) => (value - this.middle[axis]) / 1000);
    return new this.three.Vector3(x, y, z).applyMatrix4(this.part.matrixWorld);
  }

  leftOut() {
    for (const ball of this.balls) { this.scene.remove(ball); ball.geometry.dispose(); }
    this.balls = [];
    for (const row of form.querySelectorAll(".ball")) {
      const at = this.placed(row.querySelector('input[name="cut"]').value);
      const radius = Number(row.querySelector('input[name="cut_radius"]').value.replace(",", "."));
      if (!at || !(radius > 0)) continue;
      const { Mesh, SphereGeometry, MeshBasicMaterial } = this.three;
      const look = new MeshBasicMaterial({ color: 0xb0762f, transparent: true, opacity: 0.35, depthWrite: false });
      const ball = new Mesh(new SphereGeometry(radius / 1000, 32, 20), look);
      ball.position.copy(at);
      this.scene.add(ball);
      this.balls.push(ball);
    }
  }

  // Numbers beside the picked places, and on the car the names of its axes.
  label() {
    for (const spot of this.spots) spot.remove();
    this.spots = [];
    for (const box of this.shown === "car" ? [] : form.querySelectorAll("input[data-place]")) {
      const mark = box.labels[0]?.querySelector(".mark").textContent;
      const at = mark && box.value.trim() ? this.placed(box.value) : null;
      if (at) this.spot(at, mark, box === this.last ? "spot last" : "spot");
    }
    if (this.shown !== "car") return;
    const hub = this.wheel.getObjectByName("wheel") ?? this.wheel;
    const from = new this.three.Vector3().setFromMatrixPosition(hub.matrixWorld), out = place.dataset.side === "left" ? -1 : 1;
    for (const [way, words] of [[[0, 0, -0.5], "forward"], [[0.42 * out, 0, 0], "outboard"], [[0, 0.5, 0], "up"]]) {
      this.spot(from.clone().add(new this.three.Vector3(...way)), place.dataset[words], "spot axis");
    }
  }

  spot(at, words, kind) {
    const seen = at.clone().project(this.camera);
    if (seen.z > 1 || Math.abs(seen.x) > 1 || Math.abs(seen.y) > 1) return;
    const tag = document.createElement("span");
    tag.className = kind;
    tag.textContent = words;
    this.box.append(tag);
    const x = (seen.x + 1) / 2 * this.box.clientWidth, y = (1 - seen.y) / 2 * this.box.clientHeight;
    const above = kind.includes("axis") ? "50%" : "100% - 0.375rem"; // the dot under a number lies on the very place
    tag.style.transform = `translate(calc(${x.toFixed(1)}px - 50%), calc(${y.toFixed(1)}px - ${above}))`;
    this.spots.push(tag);
  }
}
