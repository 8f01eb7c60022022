"""The words of fasteners and metals."""

from collections.abc import Mapping

from mastlayout.checks.wording import Wording
from mastlayout.words import _

FASTENING: Mapping[str, Wording] = {
    "fastener/threads": Wording(
        _("full threads in the wall"),
        _("{a}: {s} has {m} full threads in the wall, {r} are wanted"),
        "",
        _(
            "Take a smaller or finer thread, a rivet, a rivet nut, a backing bar inside, or a bolt "
            "through the mast with a compression tube."
        ),
        brief=_("few threads"),
    ),
    "fastener/grip": Wording(
        _("rivets against what they grip"),
        "",
        _("{a}: foot, liner, packer and wall lie {m} outside what rivets of this size are listed to grip"),
        _("Take another diameter, a screw or a bolt, or ask the rivet’s maker for one that grips the stack."),
        brief_deep=_("outside its grip"),
    ),
    "fastener/unlisted": Wording(
        _("drills of fasteners"),
        "",
        _("{a}: no table has its fastener, so no drill is known"),
        _("Write the drill its maker names as the hole’s diameter, or choose another fastener."),
        brief_deep=_("drill not known"),
    ),
    "fastener/through": Wording(
        _("through bolts against what runs inside"),
        _("{a}: on its way across it passes {m} from {b}, {r} is wanted"),
        _("{a}: on its way across it meets {b}, {m} deep"),
        _("Turn or move the foot, or fasten it with rivets or screws in the wall."),
        brief=_("bolt passes {b}"),
        brief_deep=_("bolt meets {b}"),
    ),
    "metals/refused": Wording(
        _("metals in sea water"),
        _("{a}: {s} in bare contact with the aluminium wall, {m} apart in sea water"),
        "",
        _(
            "Refused whatever the index says: steel rusts into the wall, copper and brass eat it. "
            "Take stainless, or nickel-copper, with paste."
        ),
        brief=_("refused beside aluminium"),
    ),
    "metals/isolate": Wording(
        _("metals in sea water"),
        _("{a}: {s}, {m} from the aluminium wall in sea water, {r} is allowed bare"),
        "",
        _(
            "Isolate it: a liner of plastic under the foot, sleeve and washer at each fastener, barrier "
            "paste in every hole. Look under it each year."
        ),
        brief=_("isolate it"),
    ),
    "metals/paste": Wording(
        _("metals in sea water"),
        _("{a}: {s}, {m} from the aluminium wall in sea water, {r} is allowed bare"),
        "",
        _("As on every mast: liner under the foot, barrier paste on each fastener."),
        brief=_("liner and paste"),
    ),
    "metals/conducts": Wording(
        _("metals in sea water"),
        _("{a}: {s}, {m} from the aluminium wall in sea water, {r} is allowed bare"),
        "",
        _("Nickel-copper conducts, whatever is said of it: barrier paste on each fastener."),
        brief=_("liner and paste"),
    ),
    "metals/area": Wording(
        _("metals in sea water"),
        _("{a}: {s} show {m} of its area: a small anode beside a large cathode"),
        "",
        _("Take fasteners of the foot’s own metal, or nobler, with paste."),
        brief=_("less noble fasteners"),
    ),
    "metals/foot": Wording(_("metals in sea water"), "", "", ""),
    "metals/fastener": Wording(_("metals in sea water"), "", "", ""),
    "metals/builder": Wording(
        _("fasteners and metals"),
        _("{a}: not checked: of {s}; its builder decides which holes, fasteners and metals it bears"),
        "",
        _("Ask the builder before any hole; fasteners are not chosen here."),
        brief=_("its builder decides"),
    ),
}
