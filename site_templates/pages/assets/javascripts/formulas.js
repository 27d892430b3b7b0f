/* The arithmetic of the bench. Names, arguments, units and order are those of the methods page, and each function is
   tested against the one the book is made with. Only arithmetic: no class and no verdict is worked out here.
   What cannot be is refused in words (an Error), never answered with something that is not a number. */
(function (root) {
  "use strict";
  const sum = (list) => list.reduce((total, each) => total + each, 0);

  function refuse(words, details) { throw Object.assign(new RangeError(words), details); }
  function above_nought(number, name) { if (!(number > 0)) refuse(name + " must be above 0"); }
  function between_nought_and_one(number, name) {
    if (!(number > 0 && number < 1)) refuse(name + " must lie between 0 and 1, without either");
  }
  function parts(shares) {
    if (shares.some((share) => share < 0)) refuse("a share must not be below 0");
    if (!(sum(shares) > 0)) refuse("the shares add up to nothing");
    return shares;
  }
  function same_length(first, second) { if (first.length !== second.length) refuse("the lists do not match"); }

  /* Volumes of paint. Shares and concentrations are fractions of one. */
  const OIL_DENSITY = 0.935;

  function pvc(pigment_volume, binder_solids_volume) {
    const total = pigment_volume + binder_solids_volume;
    if (!(total > 0)) refuse("there is neither pigment nor binder");
    return pigment_volume / total;
  }
  function cpvc(oil_absorption, density, oil_density = OIL_DENSITY) {
    above_nought(oil_absorption, "oil absorption");
    above_nought(density, "density");
    above_nought(oil_density, "oil density");
    return 1 / (1 + oil_absorption * density / (100 * oil_density));
  }
  function pvc_of_grind(oil_to_grind, density, oil_density = OIL_DENSITY) {
    above_nought(oil_to_grind, "oil to grind");
    return cpvc(oil_to_grind, density, oil_density);
  }
  function cpvc_in_dispersion(critical, binder_index) {
    between_nought_and_one(critical, "CPVC");
    if (!(binder_index > 0 && binder_index <= 1)) refuse("the binder index must lie above 0 and not above 1");
    return 1 / (1 + (1 / critical - 1) / binder_index);
  }
  function reduced_pvc(volume, critical) {
    above_nought(critical, "CPVC");
    return volume / critical;
  }
  function pvc_for_reduced(reduced, critical) {
    between_nought_and_one(critical, "CPVC");
    const found = reduced * critical;
    if (!(found > 0 && found < 1)) refuse("this part of the critical PVC leaves no room for binder");
    return found;
  }
  function blend_density(shares, densities) {
    same_length(shares, densities);
    densities.forEach((density) => above_nought(density, "density"));
    return sum(parts(shares)) / sum(shares.map((share, n) => share / densities[n]));
  }
  function blend_oil_absorption(shares, oil_absorptions) {
    same_length(shares, oil_absorptions);
    return sum(parts(shares).map((share, n) => share * oil_absorptions[n])) / sum(shares);
  }
  function cpvc_of_blend(shares, oil_absorptions, densities, oil_density = OIL_DENSITY) {
    return cpvc(blend_oil_absorption(shares, oil_absorptions), blend_density(shares, densities), oil_density);
  }
  function binder_for_pvc(pigment_mass, density, volume, binder_solids, binder_solids_density) {
    above_nought(density, "density");
    above_nought(binder_solids_density, "binder solids density");
    between_nought_and_one(volume, "PVC");
    if (!(binder_solids > 0 && binder_solids <= 1)) refuse("binder solids must lie above 0 and not above 1");
    return pigment_mass / density * (1 - volume) / volume * binder_solids_density / binder_solids;
  }
  function volume_solids(masses, densities, solids, solids_densities = densities) {
    [densities, solids, solids_densities].forEach((list) => same_length(masses, list));
    densities.concat(solids_densities).forEach((density) => above_nought(density, "density"));
    return sum(masses.map((mass, n) => mass * solids[n] / solids_densities[n])) /
      sum(parts(masses).map((mass, n) => mass / densities[n]));
  }

  /* Weighing out. */
  const BASES = ["active-on-pigment", "product-on-pigment", "product-on-total", "active-on-total", "on-binder"];

  function dose(percent, basis, { active, pigment_mass, total_mass, binder_mass } = {}) {
    if (!BASES.includes(basis)) refuse("a dose is per cent of the pigment, the total or the binder");
    const mass = { pigment: pigment_mass, total: total_mass, binder: binder_mass }[basis.split("-").pop()];
    if (mass == null) refuse("the mass that the percentage is of is not known");
    if (!basis.startsWith("active")) return percent / 100 * mass;
    if (active == null) refuse("the active content of the product is not known");
    above_nought(active, "active content");
    return percent / 100 * mass / active;
  }
  function per_100(percent) {
    if (!(percent >= 0 && percent < 100)) refuse("percent of paste must be at least 0 and below 100");
    return 100 * percent / (100 - percent);
  }
  function percent_of_paste(liquid) {
    if (!(liquid >= 0)) refuse("liquid per 100 g of pigment must not be below 0");
    return 100 * liquid / (100 + liquid);
  }
  function parts_by_volume(pigment_mass, bulk_density, binder_mass, binder_density) {
    above_nought(bulk_density, "bulk density");
    above_nought(binder_mass, "binder mass");
    above_nought(binder_density, "binder density");
    return pigment_mass / bulk_density * binder_density / binder_mass;
  }
  function mix_by_mass(masses, shares) {
    same_length(masses, shares);
    return sum(parts(masses).map((mass, n) => mass * shares[n])) / sum(masses);
  }
  function mass_to_add(mass, share, target, added_share = 0) {
    if (share === target) return 0;
    if (!(Math.min(share, added_share) < target && target < Math.max(share, added_share)))
      refuse("the target must lie between what is there and what is added");
    return mass * (share - target) / (target - added_share);
  }
  function filled(volume, loss, tube_volume) {
    if (loss) between_nought_and_one(loss, "loss");
    above_nought(tube_volume, "tube volume");
    return volume * (1 - loss);
  }
  function full_tubes(volume, loss, tube_volume) {
    return Math.floor(filled(volume, loss, tube_volume) / tube_volume + 1e-9);
  }
  function tube_remainder(volume, loss, tube_volume) {
    return Math.max(0, filled(volume, loss, tube_volume) - full_tubes(volume, loss, tube_volume) * tube_volume);
  }

  /* Films and coats. */
  function coats(rates) {
    if (!rates.length) refuse("there is no coat");
    rates.forEach((rate) => above_nought(rate, "a spreading rate"));
    return 1 / sum(rates.map((rate) => 1 / rate));
  }
  const wet_film = (rates) => 1000 / coats(rates);
  function spreading_rate(film) {
    above_nought(film, "the wet film");
    return 1000 / film;
  }
  function scattering_contrast(n_pigment, n_binder) {
    above_nought(n_pigment, "a refractive index");
    above_nought(n_binder, "a refractive index");
    const square = (n_pigment / n_binder) ** 2;
    return ((square - 1) / (square + 2)) ** 2;
  }

  /* Dust in a room. */
  function dust_budget(limit, room_volume) {
    above_nought(limit, "the limit");
    above_nought(room_volume, "room volume");
    return limit * room_volume;
  }
  function clearing_time(ratio, air_changes, mixing = 1 / 3) {
    if (!(ratio >= 1)) refuse("the ratio must be at least 1");
    above_nought(air_changes, "air changes");
    if (!(mixing > 0 && mixing <= 1)) refuse("mixing must lie above 0 and not above 1");
    return Math.log(ratio) / (mixing * air_changes);
  }

  /* Still water (Kell 1975; IAPWS R12-08 without its critical enhancement) and still air. */
  const VISCOSITY_LEAST = [1.67752, 2.20462, 0.6366564, -0.241605];
  const VISCOSITY_TERMS = [
    [0, 0, 5.20094e-1], [1, 0, 8.50895e-2], [2, 0, -1.08374], [3, 0, -2.89555e-1], [0, 1, 2.22531e-1],
    [1, 1, 9.99115e-1], [2, 1, 1.88797], [3, 1, 1.26613], [5, 1, 1.20573e-1], [0, 2, -2.81378e-1],
    [1, 2, -9.06851e-1], [2, 2, -7.72479e-1], [3, 2, -4.89837e-1], [4, 2, -2.57040e-1], [0, 3, 1.61913e-1],
    [1, 3, 2.57399e-1], [0, 4, -3.25372e-2], [3, 4, 6.98452e-2], [4, 5, 8.72102e-3], [3, 6, -4.35673e-3],
    [5, 6, -5.93264e-4]];
  const GAS_CONSTANT = 8.314462618, AIR_MOLAR_MASS = 0.0289647, ATMOSPHERE = 101325;

  function water_density(t) {
    const above = 999.83952 + t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))));
    return above / (1 + 16.879850e-3 * t);
  }
  function water_viscosity(kelvin, density) {
    const t = kelvin / 647.096, r = density / 322;
    const thin = 100 * Math.sqrt(t) / sum(VISCOSITY_LEAST.map((h, i) => h / t ** i));
    return thin * Math.exp(r * sum(VISCOSITY_TERMS.map(([i, j, h]) => h * (1 / t - 1) ** i * (r - 1) ** j))) * 1e-6;
  }
  const air_density = (kelvin) => ATMOSPHERE * AIR_MOLAR_MASS / (GAS_CONSTANT * kelvin);
  const air_viscosity = (kelvin) => 1.458e-6 * kelvin ** 1.5 / (kelvin + 110.4);
  const air_free_path = (kelvin) =>
    air_viscosity(kelvin) / ATMOSPHERE * Math.sqrt(Math.PI * GAS_CONSTANT * kelvin / (2 * AIR_MOLAR_MASS));

  function medium(fluid, temperature) {
    if (!(temperature >= 0 && temperature <= 50)) refuse("temperature must lie between 0 and 50 C");
    const kelvin = temperature + 273.15;
    if (fluid === "air") return { name: fluid, kelvin, density: air_density(kelvin), viscosity: air_viscosity(kelvin), free_path: air_free_path(kelvin) };
    if (fluid !== "water") refuse("the fluid is water or air");
    const density = water_density(temperature);
    return { name: fluid, kelvin, density, viscosity: water_viscosity(kelvin, density), free_path: 0 };
  }

  /* How fast grains sink: one drag law (Cheng 2009) that goes over to Stokes' law, and its exact inverse. */
  const GRAVITY = 9.80665, BOLTZMANN = 1.380649e-23, LEAST_SIZE = 1e-3, LARGEST_SIZE = 5000, HINDERED_FROM = 0.005, FRONT_ABOVE = 0.1;
  const FRONT_WORDS = "settles as a front, not by size";

  function drag_over_stokes(reynolds) {
    const slow = (1 + 0.27 * reynolds) ** 0.43;
    return slow + -0.47 * reynolds / 24 * Math.expm1(-0.04 * reynolds ** 0.38);
  }
  function slip(size, free_path) {
    if (free_path === 0) return 1;
    const knudsen = 2 * free_path / size;
    return 1 + knudsen * (1.257 + 0.4 * Math.exp(-1.1 / knudsen));
  }
  /* False position between brackets (the Illinois rule), in the logarithm. */
  function rising_root(of, low, high) {
    let under = of(low), above = of(high);
    if (above <= 0) return high;
    let found = high, side = 0;
    for (let turn = 0; turn < 200; turn++) {
      found = low * Math.exp(Math.log(high / low) * under / (under - above));
      const height = of(found);
      if (height === 0 || high / low - 1 < 4e-16 || Math.abs(height) < 2e-16) break;
      if (height > 0) {
        [high, above] = [found, height];
        if (side > 0) under /= 2;
        side = 1;
      } else {
        [low, under] = [found, height];
        if (side < 0) above /= 2;
        side = -1;
      }
    }
    return found;
  }
  function free_velocity(size, density, fluid) {
    above_nought(size, "size");
    const heavier = density * 1000 - fluid.density;
    if (!(heavier > 0)) refuse("a grain this light does not sink in " + fluid.name);
    const metres = size * 1e-6, kinematic = fluid.viscosity / fluid.density;
    const stokes = GRAVITY * heavier * metres ** 2 / (18 * fluid.viscosity) * slip(metres, fluid.free_path);
    const wanted = stokes * metres / kinematic;
    if (wanted > 1e9) refuse("a grain this large sinks too fast for the drag law");
    if (wanted === 0) return 0;
    const reynolds = rising_root((r) => Math.log(r * drag_over_stokes(r) / wanted), wanted / 3000, wanted);
    return reynolds * kinematic / metres;
  }
  function hindered_exponent(size, velocity, fluid) {
    const metres = size * 1e-6, reynolds = velocity * metres * fluid.density / fluid.viscosity;
    const falling = reynolds > 0 ? 4.45 * reynolds ** -0.1 : 4.48;
    const inertial = Math.min(4.48, Math.max(2.39, falling));
    const mobility = slip(metres, fluid.free_path) / (3 * Math.PI * fluid.viscosity * metres);
    const peclet = velocity * metres / (BOLTZMANN * fluid.kelvin * mobility);
    return inertial + (5.6 - inertial) / (1 + peclet / 1e8);
  }
  function settling_velocity(size, density, temperature, { solids_fraction = 0, fluid = "water", state = "dispersed" } = {}) {
    if (state === "flocculated") refuse("a flocculated slurry " + FRONT_WORDS);
    if (!(solids_fraction >= 0 && solids_fraction < 1)) refuse("solids fraction must be at least 0 and below 1");
    const around = medium(fluid, temperature), alone = free_velocity(size, density, around);
    if (solids_fraction < HINDERED_FROM) return alone;
    return alone * (1 - solids_fraction) ** hindered_exponent(size, alone, around);
  }
  function settling_time(size, depth, density, temperature, rest) {
    above_nought(depth, "depth");
    return depth / 100 / settling_velocity(size, density, temperature, rest) / 60;
  }
  function settling_size(time, depth, density, temperature, rest = {}) {
    above_nought(time, "time");
    above_nought(depth, "depth");
    if (rest.solids_fraction > FRONT_ABOVE) refuse("a slurry this thick " + FRONT_WORDS);
    const wanted = depth / 100 / (time * 60);
    const over = (size) => Math.log(settling_velocity(size, density, temperature, rest) / wanted);
    if (over(LEAST_SIZE) > 0 || over(LARGEST_SIZE) < 0) refuse("no grain sinks that fast or slow");
    return rising_root(over, LEAST_SIZE, LARGEST_SIZE);
  }

  /* Sieves (ASTM E11, openings in um), grind gauges, and the units of kitchens. */
  const E11 = {
    3.5: 5600, 4: 4750, 5: 4000, 6: 3350, 7: 2800, 8: 2360, 10: 2000, 12: 1700, 14: 1400, 16: 1180, 18: 1000, 20: 850,
    25: 710, 30: 600, 35: 500, 40: 425, 45: 355, 50: 300, 60: 250, 70: 212, 80: 180, 100: 150, 120: 125, 140: 106,
    170: 90, 200: 75, 230: 63, 270: 53, 325: 45, 400: 38, 450: 32, 500: 25, 635: 20 };
  const HEGMAN = { inch: 12.7, metric: 12.5 };
  const OUNCE = 28.349523125, FLUID_OUNCE = 29.5735295625;

  function opening_of_mesh(mesh) { return E11[mesh] || refuse("there is no sieve with this number"); }
  function mesh_of_opening(opening) {
    const near = (mesh) => Math.abs(E11[mesh] - opening);
    const mesh = Object.keys(E11).map(Number).sort((a, b) => a - b).reduce((best, each) => near(each) < near(best) ? each : best);
    return near(mesh) <= 0.03 * opening ? mesh : refuse("there is no sieve with this opening");
  }
  const depth_of_unit = (convention) => HEGMAN[convention] || refuse("the convention is inch or metric");
  function depth_of_hegman(hegman, convention = "inch") {
    if (!(hegman >= 0 && hegman <= 8)) refuse("a Hegman reading lies between 0 and 8");
    return depth_of_unit(convention) * (8 - hegman);
  }
  function hegman_of_depth(depth, convention = "inch") {
    const unit = depth_of_unit(convention);
    if (!(depth >= 0 && depth <= 8 * unit)) refuse("the groove of this gauge is not so deep");
    return 8 - depth / unit;
  }
  const grams_of_ounces = (ounces) => ounces * OUNCE;
  const ounces_of_grams = (grams) => grams / OUNCE;
  const millilitres_of_fluid_ounces = (ounces) => ounces * FLUID_OUNCE;
  const fluid_ounces_of_millilitres = (millilitres) => millilitres / FLUID_OUNCE;
  const celsius_of_fahrenheit = (degrees) => (degrees - 32) / 1.8;

  root.MULLBOOK_FORMULAS = {
    pvc, cpvc, pvc_of_grind, cpvc_in_dispersion, reduced_pvc, pvc_for_reduced, blend_density, blend_oil_absorption,
    cpvc_of_blend, binder_for_pvc, volume_solids, dose, per_100, percent_of_paste, parts_by_volume, mix_by_mass,
    mass_to_add, full_tubes, tube_remainder, coats, wet_film, spreading_rate, scattering_contrast, dust_budget,
    clearing_time, water_density, water_viscosity, air_density, air_viscosity, air_free_path, drag_over_stokes,
    settling_velocity, settling_time, settling_size, opening_of_mesh, mesh_of_opening, depth_of_hegman,
    hegman_of_depth, grams_of_ounces, ounces_of_grams, millilitres_of_fluid_ounces, fluid_ounces_of_millilitres,
    celsius_of_fahrenheit, E11, refuse, sum };
  batch(root.MULLBOOK_FORMULAS);

  /* One batch of one to four pigments: what is fixed and aimed at -> grams of everything, and back again.
     A material: id, role, density; stays (part by mass left in the film, 1 by default), stays_density, bulk, active,
     oil_absorption, glycol. A dose: material, percent, of. A spec: pigments [[material, share]], vehicle, vehicle_by,
     vehicle_ratio, dispersant, binder, aim (pvc or ratio), target, ratio_by, additions. */
  function batch(formulas) {
    const or = (value, other) => value == null ? other : value;
    const stays = (material) => or(material.stays, 1);
    const film_volume = (material) => stays(material) / (material.stays_density || material.density);
    const per_part = (dosed) => dosed.percent / 100 / (dosed.of.startsWith("active") ? or(dosed.material.active, 1) : 1);
    const doses = (spec) => (spec.dispersant ? [spec.dispersant] : []).concat(spec.additions || []);
    const on = (dosed, ...bases) => bases.includes(dosed.of) ? per_part(dosed) : 0;
    const pigment_volume = (spec) => sum(spec.pigments.map(([material, share]) => share / material.density));

    function materials(spec) {
      return [spec.vehicle, ...doses(spec).map((dosed) => dosed.material), ...spec.pigments.map(([each]) => each), spec.binder]
        .filter(Boolean);
    }
    function vehicle_mass(spec) {
      if (!spec.vehicle) return 0;
      if (spec.vehicle_by === "weight") return spec.vehicle_ratio;
      const heaped = sum(spec.pigments.map(([material, share]) => material.bulk == null
        ? refuse("the density of the loose powder is not known: weigh 50 ml of it, or give the vehicle by weight", { field: "vehicle", of: material.id })
        : share / material.bulk));
      return spec.vehicle_ratio * heaped * spec.vehicle.density;
    }
    /* With B the binder and T the total, per gram of pigment, each dose is a + b T + c B grams. */
    function coefficients(spec) {
      const dry = spec.binder ? stays(spec.binder) : 0;
      const found = {
        a: doses(spec).map((each) => on(each, "active-on-pigment", "product-on-pigment")),
        b: doses(spec).map((each) => on(each, "active-on-total", "product-on-total")),
        c: doses(spec).map((each) => on(each, "on-binder") + on(each, "on-dry-binder") * dry) };
      if (sum(found.b) >= 1) refuse("the doses on the total leave nothing for the paint", { field: "additions" });
      return found;
    }
    function pvc_without_binder(spec, vehicle, { a, b }) {
      const total = (1 + vehicle + sum(a)) / (1 - sum(b));
      let film = sum(doses(spec).map((each, n) => (a[n] + b[n] * total) * film_volume(each.material)));
      if (spec.vehicle) film += vehicle * film_volume(spec.vehicle);
      return pvc(pigment_volume(spec), film);
    }
    /* Parts of binder to parts of paste; the paste is pigment, vehicle and dispersant. */
    function binder_by_ratio(spec, vehicle) {
      const dispersant = spec.dispersant ? on(spec.dispersant, "active-on-pigment", "product-on-pigment") : 0;
      if (spec.ratio_by === "weight") return spec.target * (1 + vehicle + dispersant);
      let volume = pigment_volume(spec);
      if (spec.vehicle) volume += vehicle / spec.vehicle.density;
      if (spec.dispersant) volume += dispersant / spec.dispersant.material.density;
      return spec.target * volume * spec.binder.density;
    }
    function total_and_binder(spec, vehicle, { a, b, c }) {
      const base = 1 + vehicle + sum(a), share = 1 - sum(b), more = 1 + sum(c);
      const with_binder = (binder) => [(base + binder * more) / share, binder];
      if (!spec.binder) return [base / share, 0];
      if (spec.aim === "ratio") return with_binder(binder_by_ratio(spec, vehicle));
      const films = doses(spec).map((each) => film_volume(each.material));
      const on_total = sum(b.map((each, n) => each * films[n]));
      let wanted = pigment_volume(spec) * (1 - spec.target) / spec.target - sum(a.map((each, n) => each * films[n]));
      if (spec.vehicle) wanted -= vehicle * film_volume(spec.vehicle);
      wanted -= on_total * base / share;
      const slope = film_volume(spec.binder) + sum(c.map((each, n) => each * films[n])) + on_total * more / share;
      if (wanted / slope < 0)
        refuse("what stays of the vehicle and the additives already fills more than this PVC leaves for binder",
          { field: "target", nearest: pvc_without_binder(spec, vehicle, { a, b }) });
      return with_binder(wanted / slope);
    }
    function solve(spec, pigment_mass = 1) {
      const vehicle = vehicle_mass(spec), found = coefficients(spec), grams = {};
      const [total, binder] = total_and_binder(spec, vehicle, found);
      const add = (material, mass) => { grams[material.id] = (grams[material.id] || 0) + mass; };
      if (spec.vehicle) add(spec.vehicle, vehicle);
      doses(spec).forEach((each, n) => add(each.material, found.a[n] + found.b[n] * total + found.c[n] * binder));
      spec.pigments.forEach(([pigment, share]) => add(pigment, share));
      if (spec.binder) add(spec.binder, binder);
      Object.keys(grams).forEach((id) => { grams[id] *= pigment_mass; });
      return grams;
    }
    function totals(held, grams) {
      const unique = [...new Map(held.map((each) => [each.id, each])).values()];
      const of = (value, keep = () => true) => sum(unique.filter(keep).map((each) => (grams[each.id] || 0) * value(each)));
      const is = (role) => (material) => material.role === role, volume_of = (each) => 1 / each.density, one = () => 1;
      const mass = of(one), volume = of(volume_of), film = of(film_volume), film_mass = of(stays);
      if (!(film > 0)) refuse("nothing in it stays in the film", { field: "pigments" });
      const powder = of(one, is("pigment")), pigment = of(volume_of, is("pigment"));
      const glycol = of((each) => or(each.glycol, 0)), wet = of(one, is("binder")), dry = of(stays, is("binder"));
      const known = unique.filter(is("pigment")).every((each) => each.oil_absorption != null);
      return {
        mass, volume, pigment_volume: pigment, film_volume: film, film_mass, pvc: pigment / film,
        weight_solids: film_mass / mass, volume_solids: film / volume, wet_density: mass / volume, dry_density: film_mass / film,
        oil_absorption: known && powder ? of((each) => each.oil_absorption, is("pigment")) / powder : null,
        pigment_density: pigment ? powder / pigment : 0,
        glycol_of_paint: glycol / mass, glycol_volume_of_paint: of((each) => or(each.glycol, 0) / each.density) / volume,
        glycol_of_wet_binder: wet ? glycol / wet : null, glycol_of_dry_binder: dry ? glycol / dry : null };
    }
    const mass_for_volume = (spec, volume) => volume / totals(materials(spec), solve(spec)).volume;

    /* What to add; nothing is ever taken out. */
    function smallest_additions(wanted, have) {
      const strange = Object.keys(have).filter((id) => have[id] > 0 && !(wanted[id] > 0));
      if (strange.length) refuse("something is in the batch but not in the recipe, and nothing can be taken out", { field: "have", of: strange[0] });
      const scale = Math.max(0, ...Object.keys(wanted).filter((id) => wanted[id] > 0).map((id) => (have[id] || 0) / wanted[id]));
      return Object.fromEntries(Object.keys(wanted).map((id) => [id, scale * wanted[id] - (have[id] || 0)]));
    }
    function binder_to_reach(held, grams, binder, target) {
      const now = totals(held, grams), more = (now.pigment_volume / target - now.film_volume) / film_volume(binder);
      return more >= 0 ? more : refuse("the batch already holds more binder than this PVC asks for: add pigment paste instead", { field: "target", nearest: now.pvc });
    }
    function paste_to_reach(held, grams, paste, target) {
      const now = totals(held, grams), made = totals(held, paste);
      const pigment = made.pigment_volume / made.mass, film = made.film_volume / made.mass;
      if (now.pvc > target) refuse("the batch already holds more pigment than this PVC asks for: add binder instead", { field: "target", nearest: now.pvc });
      if (pigment <= target * film) refuse("the paste itself is leaner in pigment than this PVC", { field: "target", nearest: made.pvc });
      return (target * now.film_volume - now.pigment_volume) / (pigment - target * film);
    }
    Object.assign(formulas, { solve, totals, materials, vehicle_mass, mass_for_volume, smallest_additions, binder_to_reach, paste_to_reach });
  }

  if (typeof module === "object") module.exports = root.MULLBOOK_FORMULAS;
})(typeof window === "undefined" ? globalThis : window);
