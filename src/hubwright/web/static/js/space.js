// The 3-D view of a wheel in its arch. The server sends the scene (GLB) and, for every state, the pose of the wheel, both ends
// of the nearest gap, and the words for it. Nothing is worked out here. Without WebGL the section says so and stays away.
const NEAR_MM = 0.004;
const LOOKS = { free: [0.9, 0.55, 0.9], behind: [0, 0.05, 1], above: [0, 1, 0.001], side: [1, 0.05, 0] };

for (const words of document.querySelectorAll("[data-plain]")) words.hidden = true;
for (const place of document.querySelectorAll("[data-viewer]")) show(place);

async function show(place) {
  place.hidden = false;
  const says = place.querySelector("[data-says]");
  let three, states, scene;
  try {
    if (!document.createElement("canvas").getContext("webgl2")) throw new Error("no WebGL 2");
    three = await import(place.dataset.module);
    const [answer, loaded] = await Promise.all([
      fetch(place.dataset.states, { headers: { accept: "application/json" } }),
      new three.GLTFLoader().loadAsync(place.dataset.scene),
    ]);
    if (answer.status !== 200) throw new Error(`states: ${answer.status}`);
    states = await answer.json();
    scene = loaded.scene;
    new Viewer(three, place, states, scene);
  } catch (error) {
    console.info("3-D view:", error);
    says.textContent = place.dataset.failed;
    place.dataset.drawn = "no";
    for (const part of place.querySelectorAll(".arch, .controls, .hint")) part.hidden = true;
  }
}

class Viewer {
  constructor(three, place, states, model) {
    this.three = three;
    this.place = place;
    this.states = states;
    this.box = place.querySelector("[data-arch]");
    this.canvas = place.querySelector("canvas");
    this.tag = place.querySelector("[data-tag]");
    this.renderer = new three.WebGLRenderer({ canvas: this.canvas, antialias: true, preserveDrawingBuffer: true });
    this.renderer.setPixelRatio(Math.min(window.devicePixelRatio || 1, 2));
    this.scene = new three.Scene();
    this.camera = new three.PerspectiveCamera(38, 1, 0.01, 20);
    this.wheel = model.getObjectByName("wheel");
    this.around = [];
    model.traverse((part) => this.dress(part));
    this.scene.add(model);
    this.light();
    this.marks();
    this.controls = new three.OrbitControls(this.camera, this.canvas);
    this.controls.enableDamping = false; // nothing moves by itself
    this.controls.minDistance = 0.15;
    this.controls.maxDistance = 6;
    this.controls.addEventListener("change", () => this.draw());
    this.bind();
    this.colours();
    this.resize();
    this.look("free");
    this.to(states.least);
    new ResizeObserver(() => this.resize()).observe(this.box);
  }

  // What stands around the wheel is seen through; edges make its shape readable without colour.
  dress(part) {
    if (!part.isMesh) return;
    let top = part;
    while (top && !(top.name || "").startsWith("obstacle")) top = top.parent;
    if (!top) return;
    part.material = part.material.clone();
    part.material.transparent = true;
    part.material.opacity = 0.38;
    part.material.depthWrite = false;
    this.around.push(part);
  }

  light() {
    const { HemisphereLight, DirectionalLight } = this.three;
    this.scene.add(new HemisphereLight(0xffffff, 0x777777, 2.2));
    for (const [x, y, z] of [[2, 3, 2], [-2, 2, -1]]) {
      const sun = new DirectionalLight(0xffffff, 1.6);
      sun.position.set(x, y, z);
      this.scene.add(sun);
    }
  }

  // Both ends of the nearest gap, seen through everything.
  marks() {
    const { Mesh, SphereGeometry, MeshBasicMaterial, Line, LineBasicMaterial, BufferGeometry, Float32BufferAttribute } = this.three;
    this.markLook = new MeshBasicMaterial({ depthTest: false, transparent: true });
    this.lineLook = new LineBasicMaterial({ depthTest: false, transparent: true });
    this.ends = [0, 1].map(() => new Mesh(new SphereGeometry(NEAR_MM, 20, 14), this.markLook));
    this.between = new Line(new BufferGeometry().setAttribute("position", new Float32BufferAttribute(6, 3)), this.lineLook);
    for (const part of [...this.ends, this.between]) {
      part.renderOrder = 5;
      part.frustumCulled = false;
      this.scene.add(part);
    }
  }

  bind() {
    const { place, states } = this;
    this.travel = place.querySelector("[data-travel]");
    this.lock = place.querySelector("[data-lock]");
    this.travel.max = String(states.travels_mm.length - 1);
    this.lock.max = String(states.locks - 1);
    if (states.locks < 2) place.querySelector("[data-lock-field]").hidden = true;
    for (const slider of [this.travel, this.lock]) slider.addEventListener("input", () => this.step());
    place.querySelector("[data-least]").addEventListener("click", () => this.to(states.least));
    place.querySelector("[data-parked]").addEventListener("click", () => this.toNearest(0, 0));
    for (const button of place.querySelectorAll("[data-look]")) button.addEventListener("click", () => this.look(button.dataset.look));
    place.querySelector("[data-hide]").addEventListener("change", (event) => {
      for (const part of this.around) part.visible = !event.target.checked;
      this.draw();
    });
    this.canvas.addEventListener("keydown", (event) => this.key(event));
    matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => { this.colours(); this.draw(); });
  }

  key(event) {
    const turns = { ArrowLeft: [-0.12, 0], ArrowRight: [0.12, 0], ArrowUp: [0, -0.12], ArrowDown: [0, 0.12] };
    const nearer = { "+": 0.88, "=": 0.88, "-": 1.14 };
    if (!(event.key in turns) && !(event.key in nearer)) return;
    event.preventDefault();
    const away = this.camera.position.clone().sub(this.controls.target);
    if (event.key in nearer) {
      away.multiplyScalar(nearer[event.key]);
    } else {
      const [round, up] = turns[event.key];
      const size = away.length();
      const level = Math.atan2(away.x, away.z) + round;
      const tilt = Math.min(Math.max(Math.acos(away.y / size) + up, 0.02), Math.PI - 0.02);
      away.set(Math.sin(tilt) * Math.sin(level), Math.cos(tilt), Math.sin(tilt) * Math.cos(level)).multiplyScalar(size);
    }
    this.camera.position.copy(this.controls.target).add(away);
    this.controls.update();
    this.press("");
    this.draw();
  }

  step() {
    const state = this.states.states[Number(this.travel.value)][Number(this.lock.value)];
    if (!state) {
      this.says(this.place.dataset.nothing);
      return;
    }
    this.to(state, false);
  }

  // The step of the sliders nearest to a state.
  toNearest(travel, steer) {
    let best = null;
    this.states.states.forEach((row, i) => row.forEach((state, j) => {
      if (!state) return;
      const off = Math.abs(state.travel_mm - travel) + 3 * Math.abs(state.steer_deg - steer);
      if (best === null || off < best.off) best = { off, i, j, state };
    }));
    if (!best) return;
    this.travel.value = String(best.i);
    this.lock.value = String(best.j);
    this.to(best.state, false);
  }

  to(state, follow = true) {
    if (follow) this.follow(state);
    this.wheel.matrixAutoUpdate = true;
    this.wheel.position.fromArray(state.place);
    this.wheel.quaternion.fromArray(state.turn);
    this.wheel.scale.set(1, 1, 1);
    this.state = state;
    const there = Boolean(state.near);
    for (const part of [...this.ends, this.between]) part.visible = there;
    if (there) {
      this.ends[0].position.fromArray(state.near);
      this.ends[1].position.fromArray(state.wheel);
      this.between.geometry.attributes.position.array.set([...state.near, ...state.wheel]);
      this.between.geometry.attributes.position.needsUpdate = true;
    }
    this.colours();
    this.says(state.words);
    for (const slider of [this.travel, this.lock]) slider.setAttribute("aria-valuetext", state.state);
    this.place.dataset.state = `${state.travel_mm} ${state.steer_deg}`;
    if (this.looking === "near") this.look("near");
    this.draw();
  }

  // Sliders stand at the step nearest to a state that lies between them.
  follow(state) {
    let best = Infinity;
    this.states.states.forEach((row, i) => row.forEach((one, j) => {
      if (!one) return;
      const off = Math.abs(one.travel_mm - state.travel_mm) + 3 * Math.abs(one.steer_deg - state.steer_deg);
      if (off < best) { best = off; this.travel.value = String(i); this.lock.value = String(j); }
    }));
  }

  look(name) {
    const middle = new this.three.Vector3().fromArray(this.middle().place);
    const outward = this.states.side === "left" ? -1 : 1; // glTF: left of the car is -X, its front -Z
    let away = 1.55;
    middle.y += 0.06; // the arch stands over the wheel
    if (name === "near" && this.state?.near) {
      const near = new this.three.Vector3().fromArray(this.state.near);
      const from = near.clone().sub(middle);
      this.controls.target.copy(near);
      this.camera.position.copy(near).add(from.setX(from.x + outward * 0.35).setY(from.y + 0.18).normalize().multiplyScalar(0.45));
    } else {
      const [x, y, z] = LOOKS[name] ?? LOOKS.free;
      if (this.box.clientWidth < 500) away = 2.3;
      this.controls.target.copy(middle);
      this.camera.position.copy(middle).add(new this.three.Vector3(x * outward, y, z).normalize().multiplyScalar(away));
    }
    this.looking = name;
    this.controls.update();
    this.press(name);
    this.draw();
  }

  // The wheel as near to parked and straight ahead as the sliders come: what the camera looks at.
  middle() {
    const every = this.states.states.flat().filter(Boolean);
    const off = (state) => Math.abs(state.travel_mm) + 3 * Math.abs(state.steer_deg);
    return every.reduce((best, state) => (off(state) < off(best) ? state : best), every[0] ?? this.states.least);
  }

  press(name) {
    for (const button of this.place.querySelectorAll("[data-look]")) button.setAttribute("aria-pressed", String(button.dataset.look === name));
    if (!name) this.looking = "";
  }

  colours() {
    const look = getComputedStyle(this.box);
    this.scene.background = new this.three.Color(look.backgroundColor);
    const ink = new this.three.Color(getComputedStyle(this.place).color);
    const enough = this.state ? this.state.enough : true;
    const mark = enough ? ink : new this.three.Color(0xd8433f);
    this.markLook.color.copy(mark);
    this.lineLook.color.copy(mark);
  }

  says(words) { this.place.querySelector("[data-says]").textContent = words; }

  resize() {
    const { clientWidth, clientHeight } = this.box;
    if (!clientWidth || !clientHeight) return;
    this.renderer.setSize(clientWidth, clientHeight, false);
    this.camera.aspect = clientWidth / clientHeight;
    this.camera.updateProjectionMatrix();
    this.draw();
  }

  draw() {
    if (!this.state) return;
    for (const end of this.ends) end.scale.setScalar(Math.max(1, end.position.distanceTo(this.camera.position) / 0.6));
    this.renderer.render(this.scene, this.camera);
    this.label();
    this.place.dataset.drawn = "yes";
  }

  // The gap in figures beside its mark, as the server said it.
  label() {
    const { state, tag, box } = this;
    if (!state.near || !state.tag) { tag.style.visibility = "hidden"; return; }
    const at = new this.three.Vector3().fromArray(state.near).project(this.camera);
    const x = Math.min(Math.max((at.x + 1) / 2 * box.clientWidth + 12, 4), box.clientWidth - tag.offsetWidth - 4);
    const y = Math.min(Math.max((1 - at.y) / 2 * box.clientHeight - 40, 4), box.clientHeight - tag.offsetHeight - 4);
    tag.textContent = state.tag;
    tag.style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px)`;
    tag.style.visibility = at.z < 1 ? "visible" : "hidden";
  }
}
