/* A washing worked out, and a nest of sieves: the arithmetic of the methods page, tested against it. Only arithmetic.
   Sizes in µm, densities in g/cm3, heights in cm, volumes in litres, times in minutes, conductivities in mS/cm. */
(function (root) {
  "use strict";
  const { settling_velocity, settling_time, settling_size, water_density, water_viscosity, refuse, sum } = root.MULLBOOK_FORMULAS;
  const STEPS_OF_A_CLASS = 16, MOST_WASHES = 50, FRONT_ABOVE = 0.1, HINDERED_FROM = 0.005, GRAVITY = 9.80665;
  const STOKES_TO = 60, BROWNIAN_BELOW = 1, BY_HAND_FROM = 20 / 60, STILL_TO = 240, MOST_CUTS = 6, MOST_ROUNDS = 20, MOST_MINERALS = 12;
  const GUESS = { edges: [0.2, 2, 63, 500], shares: [0.3, 0.5, 0.2] };

  function above_nought(number, name) { if (!(number > 0)) refuse(name + " must be above 0"); }
  function check_grains({ edges, shares }) {
    if (edges.length !== shares.length + 1 || edges.some((each, n) => n && each <= edges[n - 1])) refuse("sizes of grains rise, with one share between each two");
    if (!(edges[0] > 0) || shares.some((each) => each < 0)) refuse("a size and a share of grains must not be below 0");
    if (!(sum(shares) > 0)) refuse("the shares of the grains add up to nothing");
  }
  function grain_points(grains) {
    check_grains(grains);
    const whole = sum(grains.shares), found = [];
    grains.shares.forEach((share, n) => {
      const low = grains.edges[n], high = grains.edges[n + 1];
      for (let step = 0; step < STEPS_OF_A_CLASS; step++) found.push([low * (high / low) ** ((step + 0.5) / STEPS_OF_A_CLASS), share / whole / STEPS_OF_A_CLASS]);
    });
    return found;
  }
  function grains_above(grains, size) {
    check_grains(grains);
    let above = 0;
    grains.shares.forEach((share, n) => {
      const low = grains.edges[n], high = grains.edges[n + 1];
      if (size <= low) above += share; else if (size < high) above += share * Math.log(high / size) / Math.log(high / low);
    });
    return above / sum(grains.shares);
  }

  function retained_water(kept, depth) {
    above_nought(depth, "depth");
    if (!(kept >= 0)) refuse("the height left standing must not be below 0");
    return kept / (kept + depth);
  }
  function check_retained(retained) { if (!(retained >= 0 && retained < 1)) refuse("the part of the water left behind must be at least 0 and below 1"); }
  function poured_share(size, time, depth, density, temperature, { retained = 0.2, rounds = 1, solids_fraction = 0 } = {}) {
    if (!(time >= 0)) refuse("time must not be below 0");
    above_nought(depth, "depth");
    check_retained(retained);
    if (!(rounds >= 0)) refuse("the rounds must not be below 0");
    const over = (1 - retained) * Math.max(0, 1 - settling_velocity(size, density, temperature, { solids_fraction }) * time * 60 / (depth / 100));
    return 1 - (1 - over) ** rounds;
  }
  function equal_settling(size, density, other_density, temperature) {
    return settling_size(settling_time(size, 1, density, temperature), 1, other_density, temperature);
  }
  function wash_conductivity(conductivity, wash_water, retained, washes) {
    check_retained(retained);
    if (!(Math.min(conductivity, wash_water, washes) >= 0)) refuse("conductivities and washes must not be below 0");
    return wash_water + (conductivity - wash_water) * retained ** washes;
  }
  function washes_needed(conductivity, wash_water, retained, target) {
    check_retained(retained);
    if (!(Math.min(conductivity, wash_water) >= 0)) refuse("a conductivity must not be below 0");
    if (conductivity <= target) return 0;
    if (target <= wash_water) refuse("washing only comes near to the conductivity of the wash water: set the target above it");
    if (retained === 0) return 1;
    const found = Math.max(0, Math.ceil(Math.log((target - wash_water) / (conductivity - wash_water)) / Math.log(retained) - 1e-9));
    return found > MOST_WASHES ? refuse("more than " + MOST_WASHES + " washes: leave less water behind at each") : found;
  }
  /* Part of the grains of one size left in each jar of a cascade, and last what goes over all. */
  function cascade(over, rounds) {
    const held = [1, ...over.map(() => 0)];
    for (let round = 0; round < rounds; round++) over.forEach((part, jar) => {
      const poured = held[jar] * part;
      held[jar] -= poured;
      held[jar + 1] += poured;
    });
    return held;
  }

  const filled = (asked) => ({ depth: 10, kept: 2.5, volume: 1, temperature: 20, solids: 0.02, minerals: [], grains: GUESS, rounds: 3, conductivity: null, wash_water: 0.3, target: null, settle: 1, ...asked });
  function checked(asked) {
    [["density", "density"], ["depth", "depth"], ["volume", "volume"], ["solids", "the solids"], ["settle", "the size to settle"]].forEach(([key, name]) => above_nought(asked[key], name));
    if (asked.solids > FRONT_ABOVE) refuse("a slurry this thick settles as a front, not by size: thin it");
    const cuts = [...new Set(asked.cuts)].sort((a, b) => b - a);
    if (!cuts.length || cuts.length > MOST_CUTS) refuse("one to " + MOST_CUTS + " sizes can be cut at");
    if (!(asked.rounds >= 1 && asked.rounds <= MOST_ROUNDS)) refuse("one to " + MOST_ROUNDS + " rounds can be planned");
    const minerals = asked.minerals.length ? asked.minerals : [{ name: "earth", density: asked.density, share: null }];
    if (minerals.length > MOST_MINERALS) refuse("at most " + MOST_MINERALS + " minerals can be followed");
    minerals.forEach((each) => above_nought(each.density, "density"));
    return [cuts, minerals];
  }
  function fractions(asked, minerals, cuts, grams, retained) {
    const known = minerals.map((each) => each.share == null ? 0 : each.share), whole = sum(known);
    const shares = known.map((each) => whole > 0 ? each / whole : 1 / minerals.length), rest = { retained, solids_fraction: asked.solids };
    const held = [...cuts, null].map(() => minerals.map(() => 0));
    grain_points(asked.grains).forEach(([size, part]) => minerals.forEach((mineral, place) => {
      const over = cuts.map((cut) => poured_share(size, cut.minutes, asked.depth, mineral.density, asked.temperature, rest));
      cascade(over, asked.rounds).forEach((share, jar) => { held[jar][place] += grams * shares[place] * part * share; });
    }));
    return held.map((masses, jar) => ({ jar: jar + 1, grams: sum(masses), share: sum(masses) / grams,
      minerals: masses.map((mass, place) => [mass, jar < cuts.length ? cuts[jar].sizes[place] : 0, jar ? cuts[jar - 1].sizes[place] : null]) }));
  }
  function plan(given) {
    const asked = filled(given), [cuts, minerals] = checked(asked), { depth, temperature, rounds } = asked;
    const retained = retained_water(asked.kept, depth), rest = { solids_fraction: asked.solids };
    const waits = cuts.map((size) => settling_time(size, depth, asked.density, temperature, rest));
    const density = water_density(temperature), viscosity = water_viscosity(temperature + 273.15, density);
    const found = cuts.map((size, n) => {
      const thin = settling_time(size, depth, asked.density, temperature);
      const stokes = GRAVITY * (asked.density * 1000 - density) * (size * 1e-6) ** 2 / (18 * viscosity);
      return { size, minutes: waits[n], thin, stokes: depth / 100 / stokes / 60 * waits[n] / thin,
        sizes: minerals.map((each) => settling_size(waits[n], depth, each.density, temperature, rest)),
        half: poured_share(size / 2, waits[n], depth, asked.density, temperature, { retained, rounds, solids_fraction: asked.solids }) };
    });
    const poured = asked.volume * (1 - retained), left = asked.volume * retained, steps = [];
    for (let round = 1; round <= rounds; round++) cuts.forEach((size, n) => steps.push({ round, jar: n + 1,
      litres_in: round === 1 ? (n ? left : asked.volume) : n ? 0 : poured, minutes: waits[n], litres_out: poured, into: n + 2, size }));
    const grams = asked.solids * asked.volume * 1000 * asked.density;
    const settle_minutes = settling_time(asked.settle, depth, Math.min(...minerals.map((each) => each.density)), temperature);
    let washes = null, readings = [], target = null;
    if (asked.conductivity != null) {
      target = asked.target == null ? asked.wash_water + 0.1 : asked.target;
      washes = washes_needed(asked.conductivity, asked.wash_water, retained, target);
      readings = Array.from({ length: washes + 1 }, (_, each) => wash_conductivity(asked.conductivity, asked.wash_water, retained, each));
    }
    const limits = [["drag", cuts[0] > STOKES_TO], ["hand", Math.min(...waits) < BY_HAND_FROM], ["crowded", asked.solids >= HINDERED_FROM],
      ["still", Math.max(...waits) > STILL_TO], ["brownian", cuts[cuts.length - 1] < BROWNIAN_BELOW]].filter(([, holds]) => holds).map(([name]) => name);
    return { grams, retained, cuts: found, steps, fractions: fractions(asked, minerals, found, grams, retained), settle_minutes, washes, readings, target,
      litres: sum(steps.map((each) => each.litres_in)) + (washes || 0) * asked.volume * (1 - retained),
      minutes: sum(steps.map((each) => each.minutes)) + (1 + (washes || 0)) * settle_minutes, limits };
  }

  /* What lies on each sieve of a nest, from the coarsest down, and last in the pan. */
  function sieve_rows(openings, masses, pan = 0) {
    if (openings.length !== masses.length) refuse("each sieve has one mass");
    if (new Set(openings).size !== openings.length || openings.some((each) => !(each > 0))) refuse("each sieve has an opening of its own, above 0");
    if (!(Math.min(...masses, pan) >= 0)) refuse("a mass must not be below 0");
    const whole = sum(masses) + pan;
    if (!(whole > 0)) refuse("nothing was weighed");
    let above = 0;
    const rows = openings.map((opening, n) => [opening, masses[n]]).sort((a, b) => b[0] - a[0]).map(([opening, mass]) => {
      above += mass / whole;
      return { opening, mass, share: mass / whole, above, passing: Math.max(0, 1 - above) };
    });
    return [...rows, { opening: null, mass: pan, share: pan / whole, above: 1, passing: 0 }];
  }
  function sieve_loss(charged, weighed) {
    if (!(charged > 0)) refuse("what was put on the nest must be above 0");
    const lost = 1 - sum(weighed) / charged;
    return lost < -1e-9 ? refuse("more was found than was put on: weigh again, dry") : Math.max(0, lost);
  }

  root.MULLBOOK_LEVIGATION = { plan, poured_share, equal_settling, wash_conductivity, washes_needed, retained_water, grains_above, sieve_rows, sieve_loss, GUESS };
})(typeof window === "undefined" ? globalThis : window);
