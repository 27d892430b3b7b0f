/* Compares a picked folder with the list above. A page from disk cannot read its neighbours, but it may read what is picked.
   Where the browser offers no digest to pages from disk, the same is worked out here. */
"use strict";
const LISTS = ["verify.html", "SHA256SUMS", ".mullbook-files"], OWN = "verify.html";
const OF_THE_SYSTEM = /(^|\/)(\.DS_Store|Thumbs\.db|desktop\.ini|\._[^/]*)$|^(\.Spotlight-V100|\.Trashes|\.fseventsd|\.Trash-\d+|System Volume Information|\$RECYCLE\.BIN)\//;

function constants() {
  const primes = [];
  for (let n = 2; primes.length < 64; n++) if (primes.every((p) => n % p)) primes.push(n);
  const part = (x) => ((x - Math.floor(x)) * 4294967296) >>> 0;
  return { k: primes.map((p) => part(Math.cbrt(p))), start: primes.slice(0, 8).map((p) => part(Math.sqrt(p))) };
}
const SHA = constants();

function sha256(bytes) {
  const length = bytes.length, padded = new Uint8Array(((length + 8) >> 6 << 6) + 64), view = new DataView(padded.buffer);
  padded.set(bytes);
  padded[length] = 128;
  view.setUint32(padded.length - 8, Math.floor(length / 536870912));
  view.setUint32(padded.length - 4, (length << 3) >>> 0);
  const state = Uint32Array.from(SHA.start), w = new Uint32Array(64), turn = (x, n) => (x >>> n) | (x << (32 - n));
  for (let at = 0; at < padded.length; at += 64) {
    for (let i = 0; i < 16; i++) w[i] = view.getUint32(at + 4 * i);
    for (let i = 16; i < 64; i++) {
      const a = w[i - 15], b = w[i - 2];
      w[i] = w[i - 16] + (turn(a, 7) ^ turn(a, 18) ^ (a >>> 3)) + w[i - 7] + (turn(b, 17) ^ turn(b, 19) ^ (b >>> 10));
    }
    let [a, b, c, d, e, f, g, h] = state;
    for (let i = 0; i < 64; i++) {
      const one = (h + (turn(e, 6) ^ turn(e, 11) ^ turn(e, 25)) + ((e & f) ^ (~e & g)) + SHA.k[i] + w[i]) | 0;
      const two = ((turn(a, 2) ^ turn(a, 13) ^ turn(a, 22)) + ((a & b) ^ (a & c) ^ (b & c))) | 0;
      h = g; g = f; f = e; e = (d + one) | 0; d = c; c = b; b = a; a = (one + two) | 0;
    }
    [a, b, c, d, e, f, g, h].forEach((each, i) => { state[i] += each; });
  }
  return Array.from(state, (each) => each.toString(16).padStart(8, "0")).join("");
}

async function digest(file) {
  const content = await file.arrayBuffer();
  if (!(globalThis.crypto && crypto.subtle)) return sha256(new Uint8Array(content));
  const found = await crypto.subtle.digest("SHA-256", content);
  return Array.from(new Uint8Array(found), (each) => each.toString(16).padStart(2, "0")).join("");
}

/* The stick may have been picked itself or the folder it stands in; the shallowest START-HERE.html, or else this page, tells. */
function rooted(files) {
  const paths = files.map((each) => each.webkitRelativePath || each.name);
  const marks = paths.filter((path) => /(^|\/)(START-HERE\.html|verify\.html|SHA256SUMS)$/.test(path));
  marks.sort((a, b) => a.split("/").length - b.split("/").length);
  if (!marks.length) return null;
  const root = marks[0].slice(0, marks[0].lastIndexOf("/") + 1), found = new Map();
  paths.forEach((path, i) => { if (path.startsWith(root)) found.set(path.slice(root.length), files[i]); });
  return found;
}

/* The list in SHA256SUMS as digests by path; a line that is none counts as nothing. */
async function listed(file) {
  const lines = (await file.text()).split("\n").map((line) => /^([0-9a-f]{64}) [ *](.+)$/.exec(line)).filter(Boolean);
  return new Map(lines.map((found) => [found[2], found[1]]));
}

async function hold(files, tell) {
  const missing = [], altered = [], packed = new Map(PACKED.map(([path, sum, size]) => [path, { sum, size }]));
  let done = 0;
  for (const [path, { sum, size }] of packed) {
    const file = files.get(path);
    if (!file) missing.push(path);
    else if (file.size !== size || await digest(file) !== sum) altered.push(path);
    done += 1;
    if (done % 20 === 0) tell(done);
  }
  const sums = files.has("SHA256SUMS") ? await listed(files.get("SHA256SUMS")) : null;
  if (!sums) missing.push("SHA256SUMS");
  else if (PACKED.some(([path, sum]) => sums.get(path) !== sum)) altered.push("SHA256SUMS");
  if (!files.has(OWN)) missing.push(OWN);
  else if (sums && await digest(files.get(OWN)) !== sums.get(OWN)) altered.push(OWN);
  const added = [...files.keys()].filter((path) => !packed.has(path) && !LISTS.includes(path) && !OF_THE_SYSTEM.test(path));
  return { missing, altered, added };
}

function element(name, text, cls) {
  const made = document.createElement(name);
  if (text) made.textContent = text;
  if (cls) made.className = cls;
  return made;
}
function group(title, why, paths) {
  if (!paths.length) return [];
  const list = element("ul");
  paths.sort().forEach((path) => list.append(element("li", path)));
  return [element("h2", title + ": " + paths.length), element("p", why), list];
}
function show({ missing, altered, added }) {
  const wrong = missing.length + altered.length + added.length;
  const verdict = wrong
    ? element("p", "This copy is not whole: " + missing.length + " missing, " + altered.length + " altered, " + added.length + " added.", "bad")
    : element("p", "All " + PACKED.length + " files are here, as they were packed, and none was added.", "good");
  document.getElementById("found").replaceChildren(verdict,
    ...group("Missing", "Copy these again from where this copy came from.", missing),
    ...group("Altered", "Do not rely on these. Copy them again.", altered),
    ...group("Added", "No part of this edition. Find out who put them there.", added));
}

document.getElementById("folder").addEventListener("change", async (event) => {
  const status = document.getElementById("status"), files = rooted([...event.target.files]);
  document.getElementById("found").replaceChildren();
  if (!files) {
    status.textContent = "This folder holds no such copy. Pick the folder that holds START-HERE.html.";
    return;
  }
  status.textContent = "Comparing " + PACKED.length + " files …";
  const found = await hold(files, (done) => { status.textContent = done + " of " + PACKED.length + " files compared"; });
  status.textContent = "Compared.";
  show(found);
});
