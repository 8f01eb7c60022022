"""The words of the hole rules: edges, cut-outs, loaded parts, what is left, entries and feet on the curve."""

from collections.abc import Mapping

from mastlayout.checks.wording import Wording
from mastlayout.words import _


def _zone(where: str) -> Wording:
    """Return the words of holes that stand in a loaded part of the mast."""
    return Wording(
        _("holes in loaded parts"),
        _("{{a}}: a hole {{m}} from {where}, {{r}} is wanted").format(where=where),
        "",
        _("Not without the rigger's word: move it, or accept this with what was said and by whom."),
        brief=_("near {where}").format(where=where),
    )


def _off(said: str, brief: str) -> Wording:
    """Return the words of what stands just off the place it seems to be meant for."""
    return Wording(
        _("alignment in a row or a ring"),
        said,
        "",
        _("Meant to be in line? Then move it; if not, accept it as it is."),
        brief=brief,
    )


OF_HOLES: Mapping[str, Wording] = {
    "align/fore": _off(_("{a}: {m} off the forward centreline, {r} is allowed"), _("just off the line")),
    "align/aft": _off(_("{a}: {m} off the middle of the track, {r} is allowed"), _("just off the track")),
    "align/level": _off(_("{a} and {b}: not level, {m} apart, {r} is allowed"), _("not level with {b}")),
    "align/mirror": _off(_("{a} and {b}: one stands {m} farther round, {r} is allowed"), _("unlike {b}")),
    "align/row": _off(_("{a}: {m} out of the row of {b}, {r} is allowed"), _("out of the row of {b}")),
    "align/ring": _off(_("{a}: {m} out of the ring of {b}, {r} is allowed"), _("out of the ring of {b}")),
    "hole/old-used": Wording(
        _("old holes that new ones use"),
        _("{a}: takes the place of {b}, {m} off its middle"),
        "",
        _("Drill out what fills it, open it to size, and measure it before the fastener is bought."),
        brief=_("in the place of {b}"),
    ),
    "hole/old-large": Wording(
        _("old holes that new ones use"),
        _("{a}: {b} on the same middle is {r} wide, its drill {m}"),
        "",
        _("Choose the next larger fastener, or move the foot three diameters of the larger hole."),
        brief=_("{b} is too wide"),
    ),
    "hole/there": Wording(_("hole to hole"), "", "", ""),
    "hole/ring": Wording(_("holes at one level"), "", "", ""),
    "hole/mast-end": Wording(
        _("hole to the ends of the mast"),
        _("{a}: {m} from the end of the tube, {r} is needed"),
        _("{a}: {m} beyond the end of the tube"),
        _("Move the foot along the mast."),
        brief=_("near the end of the tube"),
        brief_deep=_("beyond the end of the tube"),
    ),
    "hole/track-edge": Wording(
        _("hole to the track or groove"),
        _("{a}: {m} from the edge of the track, {r} is needed"),
        _("{a}: {m} inside the track or the groove's chamber"),
        _("Move the foot round the mast."),
        brief=_("near the track"),
        brief_deep=_("in the track"),
    ),
    "hole/sleeve-end": Wording(
        _("hole to the ends of a sleeve"),
        _("{a}: {m} from the end of a sleeve inside, {r} is needed"),
        "",
        _("Move the foot: at its end a sleeve has no metal to hold, and the drill runs off."),
        brief=_("at the end of a sleeve"),
    ),
    "hole/sleeve": Wording(
        _("holes through a sleeve"),
        "",
        _("{a}: goes through a sleeve too, {m} from its end"),
        _("Grip and thread count wall and sleeve together; look for the sleeve's own rivets first."),
        brief_deep=_("through a sleeve"),
    ),
    "hole/cutouts": Wording(
        _("cut-out to cut-out"),
        _("{a}: {m} from {b} on the same side, middle to middle, {r} is needed"),
        "",
        _("Move one of the two along the mast, or to the other side; both cut already: have it looked at."),
        brief=_("near another cut-out"),
    ),
    "hole/facing": Wording(
        _("cut-outs in one ring"),
        "",
        _("{a}: its cut-out faces that of {b}, {m} of them level"),
        _("Stagger them along the mast, so that neither stands in the other's ring."),
        brief_deep=_("faces {b} in one ring"),
    ),
    "hole/cutout-edge": Wording(
        _("hole to the edge of a cut-out"),
        _("{a}: {m} from the edge of {b}, {r} is needed"),
        _("{a}: {m} inside the edge of {b}"),
        _("Move the foot, or leave the hole out of the pattern."),
        brief=_("near the edge of {b}"),
        brief_deep=_("in the edge of {b}"),
    ),
    "hole/corner": Wording(
        _("corners of cut-outs"),
        _("{a}: corners of {m} radius, {r} is needed"),
        "",
        _("Drill the corners first, twice that radius wide; saw between, file smooth: masts break there."),
        brief=_("corners too sharp"),
    ),
    "hole/drain": Wording(
        _("drain below a cut-out"),
        _("{a}: its cut-out lets water in, and no drain is listed below it"),
        "",
        _("Find the drain at the heel and list it among the holes that are there, or plan one."),
        brief=_("no drain below it"),
    ),
    "hole/near-partners": _zone(_("the partners")),
    "hole/near-gooseneck": _zone(_("the gooseneck")),
    "hole/near-boom": _zone("{b}"),
    "hole/near-root": _zone(_("the root of {b}")),
    "hole/near-hounds": _zone(_("the hounds: {b}")),
    "hole/near-weld": _zone(_("a weld")),
    "hole/near-welded": _zone(_("the weld of {b}")),
    "hole/zone": Wording(_("holes in loaded parts"), "", "", ""),
    "hole/left": Wording(_("what holes leave of the section"), "", "", ""),
    "hole/girth": Wording(
        _("girth taken at one level"),
        _("{a}: with all that is open at its level {m} of the girth is left, {r} is wanted"),
        "",
        _("Stagger its holes along the mast, or move it away from other openings; ask the rigger."),
        brief=_("takes too much girth"),
    ),
    "hole/modulus": Wording(
        _("section modulus taken at one level"),
        _("{a}: with all that is open at its level {m} of the section modulus is left, {r} is wanted"),
        "",
        _("Stagger its holes along the mast, or move it towards the section's neutral axis; ask the rigger."),
        brief=_("weakens the section"),
    ),
    "hole/off": Wording(
        _("holes as drilled against their foot"),
        _("{a}: drilled {m} off its place in the foot, {r} is allowed"),
        "",
        _("Measure it again, part in hand."),
        brief=_("drilled off its place"),
    ),
    "hole/large": Wording(
        _("holes as drilled against their drill"),
        _("{a}: drilled {m} wide, {r} is the most its fastener holds in"),
        "",
        _("Measure it again with a calliper."),
        brief=_("drilled too large"),
    ),
    "seat/gap": Wording(
        _("the foot against the curve"),
        _("{a}: the edges of its foot stand {m} off the skin, {r} is allowed"),
        "",
        _(
            "Have a packer or saddle made as deep as that; grips and screws are chosen over it. What it has "
            "in its middle is the stand-off."
        ),
        brief=_("foot does not fit the curve"),
    ),
    "seat/tilt": Wording(
        _("the foot on a taper"),
        _("{a}: the taper leans its foot {m} off the mast's axis, {r} is allowed"),
        "",
        _("Wedge the packer by as much where the part must stand square to the mast."),
        brief=_("leans with the taper"),
    ),
    "cable/entry": Wording(
        _("cable against its entry"),
        _("{a}: its entry is {m} wide, {b} wants {r}"),
        "",
        _("Make the entry wider, with a grommet or smooth edges."),
        brief=_("entry too narrow"),
    ),
    "cable/drip": Wording(
        _("drip loop"),
        _("{a}: {b} enters {m} below the edge of its foot, {r} is wanted"),
        _("{a}: {b} enters {m} above the lower edge of its foot"),
        _("Move the entry down, so that the cable rises to it from a loop and sheds the rain."),
        brief=_("no room for a drip loop"),
        brief_deep=_("no room for a drip loop"),
    ),
    "cable/slot-new": Wording(
        _("cable entry against the conduit's slot"),
        _("{a}: its cable enters {b} by a slot still to be cut"),
        "",
        _("Cut it before any cable is pulled."),
        brief=_("a slot still to be cut"),
    ),
    "cable/slot-past": Wording(
        _("cable entry against the conduit's slot"),
        "",
        _("{a}: the slot planned for its cable lies {m} beyond the end of {b}"),
        _("Plan the slot where the conduit runs, and the entry level with it."),
        brief_deep=_("slot beyond {b}"),
    ),
    "cable/slot-short": Wording(
        _("cable entry against the conduit's slot"),
        _("{a}: the slot of {b} there is {m} long, {r} is wanted for its cable"),
        "",
        _("Lengthen the slot along the conduit, and smooth its edges."),
        brief=_("slot too short"),
    ),
}
