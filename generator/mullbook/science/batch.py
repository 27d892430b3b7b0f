"""One batch of paint: from what is fixed and aimed at to grams of everything, and back again.

All unknown masses stand in proportion to the pigment, and doses on the total or on the binder are linear
in two unknowns, the total and the binder: the batch is solved in closed form, not by trial.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

ON_PIGMENT = ("active-on-pigment", "product-on-pigment")
ON_TOTAL = ("active-on-total", "product-on-total")
ON_BINDER = "on-binder"
ON_DRY_BINDER = "on-dry-binder"


class Impossible(ValueError):
    """No amounts meet the aim; the words say why, and `nearest` what comes nearest."""

    def __init__(self, message: str, field_name: str, nearest: float | None = None) -> None:
        super().__init__(message)
        self.field_name = field_name
        self.nearest = nearest


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """What the arithmetic needs to know of one thing in the batch.

    `density` in g/cm3 as supplied; `stays`, the fraction by mass that stays in the dry film, with
    `stays_density` in g/cm3; `bulk` in g/cm3 of the powder as measured out; `active`, a fraction by mass.
    """

    id: str
    role: str
    density: float
    stays: float = 1.0
    stays_density: float | None = None
    bulk: float | None = None
    active: float = 1.0
    oil_absorption: float | None = None
    glycol: float = 0.0

    @property
    def film_volume(self) -> float:
        """Volume in the dry film of one gram as supplied, ml."""
        return self.stays / (self.stays_density or self.density)


@dataclass(frozen=True, slots=True, kw_only=True)
class Dose:
    """An additive at `percent` of a basis: `active-on-pigment`, `product-on-pigment`, `active-on-total`,
    `product-on-total`, `on-binder` (as supplied) or `on-dry-binder`."""

    material: Material
    percent: float
    of: str

    @property
    def per_part(self) -> float:
        """Grams of product for each gram of the basis."""
        active = self.material.active if self.of.startswith("active") else 1.0
        return self.percent / 100 / active


@dataclass(frozen=True, slots=True, kw_only=True)
class Spec:
    """What a batch is to be, for one gram of pigment.

    `pigments` with shares by mass that add up to one; `vehicle_ratio` is grams of vehicle per gram of
    pigment (`by` weight) or ml per ml of powder (`by` volume-to-pigment). `aim` is `pvc` with its value,
    or `ratio` with parts of binder per part of paste, measured by `volume` or `weight`.
    """

    pigments: tuple[tuple[Material, float], ...]
    vehicle: Material | None = None
    vehicle_by: str = "weight"
    vehicle_ratio: float = 0.0
    dispersant: Dose | None = None
    binder: Material | None = None
    aim: str = "pvc"
    target: float = 0.0
    ratio_by: str = "volume"
    additions: tuple[Dose, ...] = ()

    @property
    def doses(self) -> tuple[Dose, ...]:
        """Dispersant and additions together."""
        return ((self.dispersant,) if self.dispersant else ()) + self.additions

    @property
    def materials(self) -> tuple[Material, ...]:
        """Everything in the batch, in the order it goes in."""
        liquids = [each for each in (self.vehicle,) if each]
        binder = [each for each in (self.binder,) if each]
        return (
            *liquids,
            *(each.material for each in self.doses),
            *(each for each, _ in self.pigments),
            *binder,
        )


def pigment_volume(spec: Spec) -> float:
    """True volume of one gram of the pigments together, ml: `sum(share / density)`."""
    return sum(share / each.density for each, share in spec.pigments)


def vehicle_mass(spec: Spec) -> float:
    """Grams of vehicle for one gram of pigment.

    By volume the powder is measured as it lies, with its air: `ratio x sum(share / bulk) x density`.
    Raises `Impossible` where a bulk density is missing.
    """
    if spec.vehicle is None:
        return 0.0
    if spec.vehicle_by == "weight":
        return spec.vehicle_ratio
    heaped = 0.0
    for each, share in spec.pigments:
        if each.bulk is None:
            raise Impossible(
                f"the vehicle is measured by volume, and the density of the loose powder of {each.id} is"
                " not known: weigh 50 ml of it, or give the vehicle by weight",
                "paste.vehicle",
            )
        heaped += share / each.bulk
    return spec.vehicle_ratio * heaped * spec.vehicle.density


def solve(spec: Spec, pigment_mass: float = 1.0) -> dict[str, float]:
    """Grams of everything for a mass of pigment.

    With B the binder and T the total, both per gram of pigment: each dose is `a + b T + c B` grams, so that
    `T (1 - sum b) - B (1 + sum c) = 1 + vehicle + sum a`, and the aim gives the second line:
    PVC: `B f_b + sum (dose f) = V_p (1 - PVC)/PVC`; ratio by weight: `B = r (T - B)` over the paste.

    Parameters: `spec`; `pigment_mass` (g). Returns grams by material id.
    Raises `Impossible` where no amount of binder meets the aim.
    """
    vehicle = vehicle_mass(spec)
    a, b, c = _coefficients(spec)
    total, binder = _unknowns(spec, vehicle, a, b, c)
    grams: dict[str, float] = {}
    if spec.vehicle is not None:
        _add(grams, spec.vehicle.id, vehicle)
    for each, fixed, on_total, on_binder in zip(spec.doses, a, b, c, strict=True):
        _add(grams, each.material.id, fixed + on_total * total + on_binder * binder)
    for pigment, share in spec.pigments:
        _add(grams, pigment.id, share)
    if spec.binder is not None:
        _add(grams, spec.binder.id, binder)
    return {name: mass * pigment_mass for name, mass in grams.items()}


def _add(grams: dict[str, float], name: str, mass: float) -> None:
    grams[name] = grams.get(name, 0.0) + mass


def _coefficients(spec: Spec) -> tuple[list[float], list[float], list[float]]:
    """For each dose: grams that are fixed, per gram of total, and per gram of binder."""
    fixed = [each.per_part if each.of in ON_PIGMENT else 0.0 for each in spec.doses]
    on_total = [each.per_part if each.of in ON_TOTAL else 0.0 for each in spec.doses]
    weights = {ON_BINDER: 1.0, ON_DRY_BINDER: spec.binder.stays if spec.binder else 0.0}
    on_binder = [each.per_part * weights.get(each.of, 0.0) for each in spec.doses]
    if sum(on_total) >= 1:
        raise Impossible("the doses on the total leave nothing for the paint", "additions")
    return fixed, on_total, on_binder


def _unknowns(
    spec: Spec, vehicle: float, a: Sequence[float], b: Sequence[float], c: Sequence[float]
) -> tuple[float, float]:
    """Total and binder, g per gram of pigment."""
    base = 1 + vehicle + sum(a)
    share = 1 - sum(b)
    if spec.binder is None:
        return base / share, 0.0
    if spec.aim == "ratio":
        binder = _binder_by_ratio(spec, vehicle)
        return (base + binder * (1 + sum(c))) / share, binder
    films = [each.material.film_volume for each in spec.doses]
    # T = (base + B (1 + sum c)) / share, put into the volume line.
    on_total = sum(x * film for x, film in zip(b, films, strict=True))
    wanted = pigment_volume(spec) * (1 - spec.target) / spec.target
    wanted -= sum(x * film for x, film in zip(a, films, strict=True))
    if spec.vehicle is not None:
        wanted -= vehicle * spec.vehicle.film_volume
    wanted -= on_total * base / share
    slope = spec.binder.film_volume + sum(x * film for x, film in zip(c, films, strict=True))
    slope += on_total * (1 + sum(c)) / share
    binder = wanted / slope
    if binder < 0:
        raise Impossible(
            "what stays of the vehicle and the additives already fills more than this PVC leaves for binder",
            "let_down.target",
            nearest=_pvc_without_binder(spec, vehicle, a, b),
        )
    return (base + binder * (1 + sum(c))) / share, binder


def _pvc_without_binder(spec: Spec, vehicle: float, a: Sequence[float], b: Sequence[float]) -> float:
    total = (1 + vehicle + sum(a)) / (1 - sum(b))
    film = sum(
        (x + y * total) * each.material.film_volume for x, y, each in zip(a, b, spec.doses, strict=True)
    )
    if spec.vehicle is not None:
        film += vehicle * spec.vehicle.film_volume
    volume = pigment_volume(spec)
    return volume / (volume + film)


def _binder_by_ratio(spec: Spec, vehicle: float) -> float:
    """Grams of binder per gram of pigment, from parts of binder to parts of paste.

    The paste is pigment, vehicle and dispersant; finishing additions come later.
    """
    assert spec.binder is not None
    dispersant = spec.dispersant.per_part if spec.dispersant and spec.dispersant.of in ON_PIGMENT else 0.0
    mass = 1 + vehicle + dispersant
    if spec.ratio_by == "weight":
        return spec.target * mass
    volume = pigment_volume(spec)
    if spec.vehicle is not None:
        volume += vehicle / spec.vehicle.density
    if spec.dispersant is not None:
        volume += dispersant / spec.dispersant.material.density
    return spec.target * volume * spec.binder.density


@dataclass(frozen=True, slots=True, kw_only=True)
class Totals:
    """What a batch comes to. Masses in g, volumes in ml, the rest fractions unless named."""

    mass: float
    volume: float
    pigment_volume: float
    film_volume: float
    film_mass: float
    pvc: float
    weight_solids: float
    volume_solids: float
    wet_density: float
    dry_density: float
    oil_absorption: float | None
    pigment_density: float
    glycol_of_paint: float
    glycol_volume_of_paint: float
    glycol_of_wet_binder: float | None
    glycol_of_dry_binder: float | None


def totals(materials: Sequence[Material], grams: Mapping[str, float]) -> Totals:
    """What amounts as weighed come to: volumes add, water and other volatiles leave the film.

    Parameters: `materials`; `grams` by material id, none below 0. Returns the totals.
    Raises `Impossible` where there is neither pigment nor anything that stays.
    """
    held = {each.id: each for each in materials}
    parts = [(each, grams.get(name, 0.0)) for name, each in held.items()]
    mass = sum(weight for _, weight in parts)
    volume = sum(weight / each.density for each, weight in parts)
    film = sum(weight * each.film_volume for each, weight in parts)
    film_mass = sum(weight * each.stays for each, weight in parts)
    if film <= 0:
        raise Impossible("nothing in it stays in the film", "pigments")
    powders = [(each, weight) for each, weight in parts if each.role == "pigment"]
    powder, pigment = (sum(weight for _, weight in powders), sum(w / each.density for each, w in powders))
    glycol = sum(weight * each.glycol for each, weight in parts)
    wet = sum(weight for each, weight in parts if each.role == "binder")
    dry = sum(weight * each.stays for each, weight in parts if each.role == "binder")
    return Totals(
        mass=mass,
        volume=volume,
        pigment_volume=pigment,
        film_volume=film,
        film_mass=film_mass,
        pvc=pigment / film,
        weight_solids=film_mass / mass,
        volume_solids=film / volume,
        wet_density=mass / volume,
        dry_density=film_mass / film,
        oil_absorption=_blended_oil(powders, powder),
        pigment_density=powder / pigment if pigment else 0.0,
        glycol_of_paint=glycol / mass,
        glycol_volume_of_paint=sum(w * each.glycol / each.density for each, w in parts) / volume,
        glycol_of_wet_binder=glycol / wet if wet else None,
        glycol_of_dry_binder=glycol / dry if dry else None,
    )


def _blended_oil(powders: Sequence[tuple[Material, float]], mass: float) -> float | None:
    """Mean oil absorption by mass, or None where one is not known."""
    total = 0.0
    for each, weight in powders:
        if each.oil_absorption is None:
            return None
        total += each.oil_absorption * weight
    return total / mass if mass else None


def mass_for_volume(spec: Spec, volume: float) -> float:
    """Pigment mass (g) whose batch fills a volume (ml): everything scales with the pigment."""
    one = totals(spec.materials, solve(spec))
    return volume / one.volume
