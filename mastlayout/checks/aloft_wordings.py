"""The words of what is found about air draught, weight aloft, antennas and sound."""

from collections.abc import Mapping

from mastlayout.checks.wording import Wording
from mastlayout.words import _

ALOFT: Mapping[str, Wording] = {
    "air/bridge": Wording(
        _("air draught"),
        _("{a}: {m} under the lowest bridge she passes ({s}), {r} is wanted"),
        _("{a}: stands {m} higher than the lowest bridge she passes ({s})"),
        _("Bring it lower, or pass at another tide or another bridge. Measure water and bridge again first."),
        brief=_("near the lowest bridge"),
        brief_deep=_("higher than the lowest bridge"),
    ),
    "air/whips": Wording(
        _("air draught"),
        "",
        _("{a}: its whip stands {m} higher than the lowest bridge she passes ({s})"),
        _("It bends or breaks there: lower or unscrew it before she passes."),
        brief_deep=_("whip higher than the lowest bridge"),
    ),
    "air/higher": Wording(
        _("air draught"),
        _("{a}: stands {m} higher than all that stays: her air draught grows by that"),
        "",
        _("Write the new air draught beside the chart table, and tell the crane."),
        brief=_("makes her taller"),
    ),
    "weight/aloft": Wording(_("weight aloft"), "", "", ""),
    "strop/crushes": Wording(
        _("balance point"),
        _("{a}: a strop at the balance point would crush it: {m} between them, {r} is wanted"),
        "",
        _("Fit it after lifting, or set the strop above it; never below the balance point."),
        brief=_("under a strop at the balance point"),
    ),
}
