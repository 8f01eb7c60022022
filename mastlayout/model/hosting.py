"""Where a fitting hangs: putting a new one on a host, and one that is there on another."""

from typing import Any

from mastlayout.frozen import dataclass
from mastlayout.model.around import Around
from mastlayout.model.edits import add, change, item_of, next_id, next_tag
from mastlayout.model.fitting import MAST, Fitting
from mastlayout.model.kind import Kind, Mount, Seat
from mastlayout.model.layout import Layout


@dataclass(frozen=True)
class Place:
    """A place on a host, in the coordinates that the host understands; the others are None."""

    on: str = MAST
    from_masthead_mm: float | None = None
    girth: Around | None = None
    along_mm: float | None = None
    round_deg: float = 0.0
    mount: str | None = None

    def fields(self) -> dict[str, Any]:
        """Return the fields of a fitting that say this place, those it does not use emptied."""
        return dict(vars(self))


@dataclass(frozen=True)
class Offer:
    """A host that is there: the mast, a spreader, a stay, or a fitting's mount; ``seat`` is its sort."""

    on: str
    seat: Seat
    mount: str | None = None


def offers(layout: Layout) -> tuple[Offer, ...]:
    """Return every host of a layout: the mast, spreaders, stays, then the mounts of its fittings."""
    kinds = {kind.id: kind for kind in layout.kinds}
    return (
        Offer(MAST, "mast"),
        *(Offer(bar.id, "spreader") for bar in layout.spreaders),
        *(Offer(stay.id, "stay") for stay in layout.stays),
        *(
            Offer(fitting.id, seat_of(mount), mount.name)
            for fitting in layout.fittings
            for mount in kinds[fitting.kind].mounts
        ),
    )


def seat_of(mount: Mount) -> Seat:
    """Return the sort of host a mount is."""
    return "mount up" if mount.facing == "up" else "mount out"


def suits(kind: Kind, offer: Offer) -> bool:
    """Tell whether a kind is made to sit on a host; where nobody said, it may sit on any."""
    return kind.sits_on is None or offer.seat in kind.sits_on


def taken(layout: Layout, offer: Offer) -> bool:
    """Tell whether something stands on a mount already."""
    return offer.mount is not None and any(
        fitting.on == offer.on and fitting.mount == offer.mount for fitting in layout.fittings
    )


def placed_new(layout: Layout, kind: Kind, place: Place) -> tuple[Layout, str]:
    """Return the layout with a new fitting of a kind at a place, and the fitting's id.

    Raises EditError where the place cannot be.
    """
    if all(own.id != kind.id for own in layout.kinds):
        layout = add(layout, "kinds", kind)
    name = next_id(layout, kind.id)
    fitting = Fitting(
        id=name, tag=next_tag(layout), name=kind.name, kind=kind.id, new=True, **_given(place.fields())
    )
    return add(layout, "fittings", fitting), name


def hung(layout: Layout, name: str, place: Place) -> Layout:
    """Return the layout with a fitting on another host, or at another place of its own.

    What was found as built on the old host says nothing of the new one and goes. EditError says why
    where it cannot stand there: on itself, too many on one another, no such mount.
    """
    _part, fitting = item_of(layout, name)
    gone: dict[str, Any] = {"as_built": None} if fitting.on != place.on and fitting.as_built else {}
    if fitting.on != place.on and fitting.holes_built:
        gone["holes_built"] = ()
    return change(layout, name, **place.fields(), **gone)


def _given(fields: dict[str, Any]) -> dict[str, Any]:
    """Leave out what a file need not say."""
    known = {key: value for key, value in fields.items() if value is not None}
    return known if known.pop("round_deg") == 0.0 else known | {"round_deg": fields["round_deg"]}
