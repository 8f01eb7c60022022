"""The words of the rules about the mainsail: its cloth, what it carries, its stack and its leech."""

from collections.abc import Mapping

from mastlayout.checks.wording import Wording
from mastlayout.words import _

# By code; ``deep`` is said where the measured value is negative.
MAIN: Mapping[str, Wording] = {
    "main/bears": Wording(
        _("clearance to the mainsail"),
        "",
        _("{a}: {b} ({s}) bears on it as the boom goes out: it stands {m} in the way of the cloth"),
        _("Move it round to the side or to the fore face, or bring it nearer the mast."),
        brief_deep=_("{b} bears on it"),
    ),
    "main/whips": Wording(
        _("clearance to the mainsail"),
        "",
        _("{a}: {b} ({s}) flogs against it, {m} deep"),
        _("Bring it nearer the mast, or round its edges; hoist head to wind, with the boom amidships."),
        brief_deep=_("{b} flogs against it"),
    ),
    "main/guarded": Wording(
        _("clearance to the mainsail"),
        "",
        _("{a}: {b} ({s}) bears on its guard, {m} in the way of the cloth"),
        _("Patch the sail there. The guard wants its own fasteners and lanyard: look at them each year."),
        brief_deep=_("{b} on its guard"),
    ),
    "main/presses": Wording(
        _("clearance to the mainsail"),
        "",
        _("{a}: full of wind, {b} ({s}) presses on it, {m} deep"),
        _("Round its edges, or move it ahead by as much; patch the sail there."),
        brief_deep=_("{b} presses on it"),
    ),
    "main/gear": Wording(
        _("clearance to the mainsail"),
        "",
        _("{a}: {b} ({s}) comes against it, {m} in the way of the cloth"),
        _("It works where it is: patch the sail there, and cover or tape its edges."),
        brief_deep=_("{b} comes against it"),
    ),
    "main/rubs": Wording(
        _("clearance to the mainsail"),
        "",
        _("{a}: {b} ({s}) rubs on it, {m} in the way of the cloth"),
        _("Patch the sail there, and keep its edges round."),
        brief_deep=_("{b} rubs on it"),
    ),
    "main/near": Wording(
        _("clearance to the mainsail"),
        _("{a}: {b} ({s}) comes within {m}, {r} is wanted"),
        _("{a}: {b} ({s}) comes within nothing of it, {r} is wanted"),
        _("Sails and tapes are not that exact: see it on the water."),
        brief=_("{b} comes near"),
        brief_deep=_("{b} comes near"),
    ),
    "main/carried": Wording(
        _("clearance to what the mainsail carries along the track"),
        _("{a}: the {s} of {b} passes {m} from it on its way up and down, {r} is wanted"),
        _("{a}: the {s} of {b} meets it on its way up and down, {m} deep"),
        _("Move it away from the track."),
        brief=_("near what {b} carries"),
        brief_deep=_("meets what {b} carries"),
    ),
    "main/folds": Wording(
        _("what the folds of the dropped mainsail lie on"),
        "",
        _("{a}: the folds of {b}, dropped on its stack, lie on it, {m} deep"),
        _("Move it away from the track, or above the stack; else round its edges, and tie the sail clear."),
        brief_deep=_("folds of {b} lie on it"),
    ),
    "main/stack": Wording(
        _("the stack of the dropped mainsail"),
        _(
            "{a}: its stack was measured {m} higher or lower than its headboard and cars add up to, "
            "{r} is allowed"
        ),
        "",
        _("Drop the sail, count and measure again; until then the higher of both is taken."),
        brief=_("stack unlike its cars"),
    ),
    "main/gate": Wording(
        _("the gate of the track and the stack"),
        _("{a}: the gate of its track opens {m} above the stack, {r} is wanted"),
        _(
            "{a}: the gate of its track opens {m} below the top of the stack: slides come out there as the "
            "sail comes down"
        ),
        _("Fit a stop above the gate, a gate that closes, or cut a new one above the stack."),
        brief=_("gate near the stack"),
        brief_deep=_("gate within the stack"),
    ),
    "main/boom": Wording(
        _("how far out the boom goes"),
        _("{a}: its boom was measured to go {m} beyond or short of where it meets {b}, {r} is allowed"),
        "",
        _("Ease the boom until it lies on the shroud, and measure its angle again."),
        brief=_("boom unlike its shroud"),
    ),
    "main/leech": Wording(
        _("the leech against the backstay"),
        _("{a}: its leech comes within {m} of {b} as the boom comes over, {r} is wanted"),
        _("{a}: its leech stands {m} beyond {b}: batten ends catch there as the boom comes over"),
        _("Have the roach cut, ease the backstay in each tack, or fit a crane that holds it farther aft."),
        brief=_("leech near {b}"),
        brief_deep=_("leech beyond {b}"),
    ),
    "main/lift": Wording(
        _("the leech against the topping lift"),
        _("{a}: its leech comes within {m} of {b}, pulled straight, {r} is wanted"),
        _("{a}: its leech stands {m} beyond {b}, pulled straight: it chafes there, and batten ends catch"),
        _("Slack it and hold it off with shock cord once the sail is up, or carry the boom by its vang."),
        brief=_("leech near {b}"),
        brief_deep=_("leech beyond {b}"),
    ),
    "main/runner": Wording(
        _("the leech against the runners"),
        _("{a} ({s}): its leech meets {b}, set up to leeward, with the boom {m} out of {r}"),
        "",
        _("Let the runner to leeward go before the boom goes out; patch the leech there."),
        brief=_("leech meets {b}"),
    ),
    "main/backstay": Wording(
        _("the leech against the backstays"),
        _("{a} ({s}): its leech meets {b} with the boom {m} out of {r}"),
        "",
        _("Ease the backstay in each tack, or have the roach cut."),
        brief=_("leech meets {b}"),
    ),
    "main/hooks": Wording(
        _("batten ends against shrouds"),
        _("{a}: its batten ends go up clear of {b} only within {m} of the boom’s line, {r} is wanted"),
        "",
        _("Hoist head to wind, the boom held amidships, and a hand at the battens."),
        brief=_("catches on {b}"),
    ),
    "main/jacks": Wording(
        _("batten ends against lazy jacks"),
        _("{a}: its batten ends go up inside {b} only within {m} of the boom’s line, {r} is wanted"),
        "",
        _("Lead the lazy jacks forward to the mast before the sail goes up, or make them fast farther out."),
        brief=_("catches on {b}"),
    ),
    "main/not-asked": Wording(_("clearance to the mainsail"), "", "", ""),
    "main/nothing": Wording(
        _("clearance to the mainsail"),
        _("{a}: not checked: its head is not above its boom"),
        "",
        _("Measure both again, from the masthead down."),
        brief=_("head below the boom"),
    ),
}
