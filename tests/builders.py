"""Small layouts built in code: one mast, what a test adds to it, nothing else."""

from typing import Any

from mastlayout.model.boat import Boat
from mastlayout.model.fitting import Fitting
from mastlayout.model.kind import Foot, Kind
from mastlayout.model.layout import Layout
from mastlayout.model.mast import Ellipse, Mast, Track, Wall
from mastlayout.model.rig import DeckEnd, Spreader, Stay
from mastlayout.model.sails import Sail

LENGTH_MM = 17000.0
# Where no magnet on the mast disturbs a compass.
FAR = DeckEnd(ahead_mm=-8000.0, above_mm=0.0)


def a_mast(**fields: Any) -> Mast:
    """An elliptic mast 200 x 130 with a groove, a wall of 5 measured every 400 mm, nothing inside."""
    walls = tuple(Wall(from_masthead_mm=float(z), thickness_mm=5.0) for z in range(0, 17001, 400))
    known: dict[str, Any] = {
        "length_mm": LENGTH_MM,
        "section": Ellipse(shape="ellipse", length_mm=200, width_mm=130),
        "taper": "none",
        "rake_deg": 0.0,
        "prebend_mm": 0.0,
        "track": Track(kind="groove", width_mm=5.0, gate_closes=True),
        "walls": walls,
        "conduits": (),
        "stretches": (),
        "mass_per_metre_kg": 60.0,
    }
    return Mast(**(known | fields))


def a_foot(**fields: Any) -> Foot:
    """A shaped foot 110 across by 60 along, four M6 tapped holes 30 across and 15 along off its middle."""
    holes = [
        {"across_mm": float(a), "along_mm": float(b), "fastener": "M6 tapped, aluminium"}
        for b in (15, -15)
        for a in (-30, 30)
    ]
    return Foot(**({"seat": "shaped", "across_mm": 110, "along_mm": 60, "holes": holes} | fields))


def a_kind(id: str = "box", **fields: Any) -> Kind:  # noqa: A002 - the model's own word
    """A box 100 across, 80 along, 120 off the skin, on ``a_foot``."""
    solid = {"shape": "box", "centre": (0, 0, 60), "size": (100, 80, 120)}
    known: dict[str, Any] = {
        "id": id,
        "name": id.capitalize(),
        "group": "sound",
        "mass_kg": 1.0,
        "metal": "aluminium",
        "foot": a_foot(),
        "solids": [solid],
    }
    return Kind(**(known | fields))


def a_fitting(id: str = "box-1", **fields: Any) -> Fitting:  # noqa: A002 - the model's own word
    """A new fitting ahead, 8000 from the masthead, its foot in hand."""
    known: dict[str, Any] = {
        "id": id,
        "name": id,
        "kind": "box",
        "from_masthead_mm": 8000.0,
        "girth": "ahead",
        "new": True,
        "in_hand": a_foot(),
    }
    return Fitting(**(known | fields))


def a_spreader(id: str = "spreader-p", **fields: Any) -> Spreader:  # noqa: A002 - the model's own word
    """A port spreader 1000 long, square to the mast, 9000 from the masthead."""
    known: dict[str, Any] = {
        "id": id,
        "name": id,
        "side": "port",
        "from_masthead_mm": 9000.0,
        "length_mm": 1000.0,
        "sweep_deg": 0.0,
        "rise_deg": 0.0,
    }
    return Spreader(**(known | fields))


def a_stay(id: str = "forestay", **fields: Any) -> Stay:  # noqa: A002 - the model's own word
    """A forestay of 10 mm from the masthead to a pin 4600 ahead, level with the heel."""
    known: dict[str, Any] = {
        "id": id,
        "name": id,
        "role": "forestay",
        "wire_mm": 10.0,
        "upper": {"from_masthead_mm": 200.0, "girth": "ahead", "stand_off_mm": 30.0},
        "deck": {"ahead_mm": 4600.0, "above_mm": 0.0},
    }
    return Stay(**(known | fields))


def a_layout(**parts: Any) -> Layout:
    """One mast, one kind, one fitting, nothing else on it; a part named takes the place of what is here."""
    known: dict[str, Any] = {
        "format": 1,
        "boat": Boat(name="Test", heel_above_water_mm=0.0, compass_at=FAR),
        "mast": a_mast(),
        "kinds": (a_kind(),),
        "fittings": (a_fitting(),),
        "spreaders": (),
        "stays": (),
        "halyards": (),
        "holes": (),
    }
    return Layout(**(known | parts))


def a_main(**fields: Any) -> Sail:
    """A mainsail 14 m on the luff, its boom 15,500 from the masthead and free to 70 degrees, no twist."""
    known: dict[str, Any] = {
        "id": "main",
        "name": "Main",
        "role": "main",
        "e_mm": 4000.0,
        "lower_mark_mm": 15500.0,
        "head_mm": 1500.0,
        "quarter_width_mm": 3200.0,
        "half_width_mm": 2300.0,
        "three_quarter_width_mm": 1300.0,
        "seven_eighths_width_mm": 700.0,
        "head_width_mm": 150.0,
        "headboard_ahead_mm": 0.0,
        "headboard_high_mm": 150.0,
        "cars": 10,
        "car_across_mm": 18.0,
        "car_high_mm": 50.0,
        "boom_limit_deg": 70.0,
        "twist_deg": 0.0,
    }
    return Sail(**(known | fields))
