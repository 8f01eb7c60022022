"""What the command line prints: findings and heights, as text and as JSON."""

import json
from collections.abc import Iterable, Mapping
from typing import Any

from mastlayout.checks.alike import alike
from mastlayout.checks.counts import counts
from mastlayout.checks.finding import Finding
from mastlayout.checks.report import NOT_RUN, Report
from mastlayout.checks.sentence import names_of, not_checked, sentence
from mastlayout.checks.wanted import wanted
from mastlayout.checks.wordings import WORDINGS
from mastlayout.documents.aloft import aloft_json
from mastlayout.documents.heard import heard_json, sail_json
from mastlayout.figures import Figure
from mastlayout.geometry.frames import height_mm
from mastlayout.geometry.scene import Scene
from mastlayout.ranges.asked import EXAMPLE, QUESTIONS, Asked
from mastlayout.ranges.asks import Ask
from mastlayout.ranges.echo import X_BAND
from mastlayout.ranges.heights import HeightRow, table
from mastlayout.ranges.light_figures import light_table
from mastlayout.ranges.own_radar import RadarRow, radar_table
from mastlayout.ranges.reach import REACHES
from mastlayout.ranges.reflector import FADES_SOURCE, ReflectorRow, reflector_table
from mastlayout.ranges.rings import Ring, every_ring
from mastlayout.words import _, ngettext

CHECK_SCHEMA = "mastlayout/check/1"
RANGES_SCHEMA = "mastlayout/ranges/2"
_UNIT_KEYS = {
    "mm": "mm", "deg": "deg", "%": "percent", "V": "v", "NM": "nm", "m²": "m2", "dB": "db", "": "number"
}  # fmt: skip


# What would clear a finding, where somebody looked for it: its sentence and its places.
Cleared = Mapping[Finding, dict[str, Any]]


def check_json(report: Report, layout: str, cleared: Cleared | None = None) -> str:
    """Return the findings as one JSON object, keys sorted, floats to 0.001.

    ``clears`` is null where nobody looked for places, and where no move can mend it.
    """
    places = cleared or {}
    open_: list[dict[str, Any]] = []
    unknown: list[dict[str, Any]] = []
    for finding in report.open:
        entry = _finding(report, finding) | {"clears": places.get(finding)}
        (unknown if finding.standing == "not checked" else open_).append(entry)
    return written_json(
        {
            "schema": CHECK_SCHEMA,
            "layout": layout,
            "findings": open_,
            "not_checked": unknown,
            "accepted": [
                _finding(report, f) | {"remark": own.remark, "day": own.day} for f, own in report.accepted
            ],
            "broken": [{"code": b.code, "subject": b.subject, "what": b.what} for b in report.broken],
            "not_in_this_version": list(NOT_RUN),
        }
    )


def _finding(report: Report, finding: Finding) -> dict[str, Any]:
    unit = _UNIT_KEYS[finding.unit]
    limit = report.limits.get(finding.limit or "")
    entry: dict[str, Any] = {
        "code": finding.code,
        "standing": finding.standing,
        "state": finding.state or None,
        "subjects": list(finding.subjects),
        "sentence": sentence(report.scene, finding, names_of(report.scene.layout)),
        f"measured_{unit}": finding.measured,
        f"required_{unit}": finding.required,
        "from_masthead_mm": None,
        "measure": finding.measure,
        "typical": finding.typical,
        "rule": WORDINGS[finding.code].rule or None,
        "limit": None,
    }
    if finding.z_mm is not None:
        entry["from_masthead_mm"] = height_mm(report.scene.skin.length_mm, finding.z_mm)
    if limit is not None:
        entry["limit"] = {
            "key": limit.key,
            "value": limit.value,
            "unit": limit.unit,
            "source": limit.source,
            "why": limit.why,
        }
    return entry


def ranges_json(scene: Scene, layout: str, asked: Asked = EXAMPLE) -> str:
    """Return all that heights, lights, antennas, radars and what is aloft give, as one JSON object."""
    return written_json(
        {
            "schema": RANGES_SCHEMA,
            "layout": layout,
            "asked": {key: asked.value(key) for key in QUESTIONS},
            "heights": [
                {
                    "id": row.id,
                    "name": row.name,
                    "from_masthead_mm": row.from_masthead_mm,
                    "from_heel_mm": row.from_heel_mm,
                    "above_deck_mm": row.above_deck_mm,
                    "above_water_m": _figure(row.water),
                    **_datums(scene, row),
                }
                | {key: _figure(figure) for key, figure in row.reaches.items()}
                for row in table(scene, asked)
            ],
            "lights": [
                {"id": row.id, "name": row.name, "light": row.role.name}
                | {key: _figure(figure) for key, figure in row.figures.items()}
                for row in light_table(scene, asked)
            ],
            "seen_round": [_ring(ring) for ring in every_ring(scene)],
            "reflectors": [_reflector(row) for row in reflector_table(scene, asked)],
            "radars": [_radar(scene, row) for row in radar_table(scene, asked)],
        }
        | aloft_json(scene, _figure)
        | heard_json(scene, asked, _figure)
    )


def _reflector(row: ReflectorRow) -> dict[str, Any]:
    return (
        {"id": row.id, "name": row.name}
        | {key: _figure(figure) for key, figure in row.figures.items()}
        | {
            "asked_of_it": [_ask(ask) for ask in row.asked],
            "ships": [
                {
                    "antenna_m": ship.antenna_m,
                    "radar_horizon_nm": _figure(ship.horizon),
                    "first_seen_nm": _figure(ship.first_seen),
                    "first_seen_s_nm": _figure(ship.first_seen_s),
                    "fades": ship.fades
                    and [
                        {"from_nm": fade.from_nm, "to_nm": fade.to_nm, "horizon": fade.horizon}
                        for fade in ship.fades
                    ],
                    "fades_source": FADES_SOURCE,
                    "fades_formula": _("where (2 sin(π Δ / λ))⁴ < 0.1, the bounce Δ longer"),
                    "fades_inputs": {"wave_mm": 1000.0 * X_BAND.wave_m, "antenna_m": ship.antenna_m}
                    | {"height_above_water_m": row.figures["above_water_m"].value},
                }
                for ship in row.ships
            ],
        }
    )


def _datums(scene: Scene, row: HeightRow) -> dict[str, Any]:
    """Return how the readings of a height come about."""
    deck = scene.layout.boat.deck_above_heel_mm
    length = scene.skin.length_mm
    return {
        "formula": _("from the heel z; from the masthead: mast − z; above the deck: z − deck"),
        "source": _("geometry; readings of one tape add up to its length"),
        "inputs": {"z_mm": scene.placed[row.id].z_mm, "mast_mm": length, "deck_mm": deck},
    }


def _ask(ask: Ask) -> dict[str, Any]:
    return {
        "key": ask.key,
        "asks": ask.words,
        "at_most" if ask.most else "at_least": ask.required,
        "answer": ask.answer,
        "found": _figure(ask.figure),
        "source": ask.source,
    }


def _radar(scene: Scene, row: RadarRow) -> dict[str, Any]:
    figures = {key: _figure(figure) for key, figure in row.figures.items()}
    sails = {"sails_in_beam": list(row.sails), "sails_met": [sail_json(scene, one) for one in row.met]}
    asked = [_ask(ask) for ask in row.asked]
    return {"id": row.id, "name": row.name, "asked_of_it": asked} | sails | figures


def _ring(ring: Ring) -> dict[str, Any]:
    return {
        "id": ring.id,
        "name": ring.name,
        "arcs": [{"name": arc.name, "from_deg": arc.first_deg, "to_deg": arc.last_deg} for arc in ring.arcs],
        "in_the_way": [
            {
                "id": thing.id,
                "seen_from_deg": thing.seen[0] % 360.0,
                "seen_to_deg": thing.seen[1] % 360.0,
                "dark_from_deg": None if thing.dark is None else thing.dark[0] % 360.0,
                "dark_to_deg": None if thing.dark is None else thing.dark[1] % 360.0,
                "share_percent": 100.0 * thing.share,
                "inputs": {"lens_mm": ring.wide_mm, "away_mm": thing.away_mm},
                "formula": _("bearing of its middle ± arcsin((half its width + s) / distance)"),
                "source": _("geometry: s is 0 as seen from the middle, less half the lens where it is dark"),
            }
            for thing in ring.in_the_way
        ],
    }


def _figure(figure: Figure) -> dict[str, Any]:
    return {
        "value": figure.value,
        "formula": figure.formula,
        "source": figure.source,
        "inputs": dict(figure.inputs),
        "missing": figure.missing,
    }


def written_json(value: dict[str, Any]) -> str:
    """Write one JSON object, keys sorted, floats to 0.001."""
    return json.dumps(_rounded(value), sort_keys=True, ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def _rounded(value: Any) -> Any:
    if isinstance(value, float):
        return round(value, 3) + 0.0
    if isinstance(value, dict):
        return {key: _rounded(item) for key, item in value.items()}
    return [_rounded(item) for item in value] if isinstance(value, list) else value


def check_text(report: Report, layout: str, cleared: Cleared | None = None) -> str:
    """Return the findings as lines for a person, loudest first, each with what would clear it."""
    names = names_of(report.scene.layout)
    scene, places = report.scene, cleared or {}
    # What no measure would answer, as where a free luff swings, has a sentence of its own.
    known = [finding for finding in report.open if finding.measure is None]
    lines = []
    for group in alike(known):
        helps = f" {places[group[0]]['sentence']}" if group[0] in places else ""
        lines.append(f"{group[0].standing.upper():<12} {sentence(scene, group, names)}{helps}")
    lines += [f"{'NOT CHECKED':<12} {not_checked(one, names)}" for one in wanted(report)]
    lines += [
        _("ACCEPTED     {sentence} Accepted {day}: {remark}").format(
            sentence=sentence(report.scene, finding, names), day=own.day, remark=own.remark
        )
        for finding, own in report.accepted
    ]
    lines += [
        _("BROKEN       The rule {code} broke on {subject}: {what}. This is a fault of the program.").format(
            code=item.code, subject=item.subject or _("the layout"), what=item.what
        )
        for item in report.broken
    ]
    lines += [
        _("NOT RUN      {family}: not worked out by this version").format(family=family) for family in NOT_RUN
    ]
    return "\n".join([*lines, counted(report, layout)]) + "\n"


def counted(report: Report, layout: str) -> str:
    """Return the one line that counts the findings as they are printed."""
    count = counts(report)
    return _("{layout}: {faults}, {cautions}, {unknown} not checked, {notes}, {accepted} accepted").format(
        layout=layout,
        faults=ngettext("{n} fault", "{n} faults", count["fault"]).format(n=count["fault"]),
        cautions=ngettext("{n} caution", "{n} cautions", count["caution"]).format(n=count["caution"]),
        unknown=count["not checked"],
        notes=ngettext("{n} note", "{n} notes", count["note"]).format(n=count["note"]),
        accepted=count["accepted"],
    )


def ranges_text(rows: Iterable[HeightRow], asked: Asked = EXAMPLE) -> str:
    """Return the height table as lines of columns: mm along the mast, m above water, nautical miles."""
    head = (
        _("masthead"), _("heel"), _("deck"), _("water m"), _("sees 2.08"), _("sees 2.12"), _("light 2.08"),
        _("light 2.12"), _("radio"), _("to radio"), _("to target"), _("what"),
    )  # fmt: skip
    table = [head] + [
        (
            str(row.from_masthead_mm),
            str(row.from_heel_mm),
            "-" if row.above_deck_mm is None else f"{row.above_deck_mm:.0f}",
            _number(row.water, 2),
            *(_number(row.reaches[reach.key], 1) for reach in REACHES),
            row.name,
        )
        for row in rows
    ]
    lines = ["  ".join([*(f"{cell:>10}" for cell in cells[:-1]), cells[-1]]) for cells in table]
    return "\n".join([*lines, *_conventions(asked)]) + "\n"


def _conventions(asked: Asked) -> list[str]:
    """Return what the columns of the height table stand on."""
    upright = not asked.heel_deg and not asked.trim_deg
    lies = _("Water: upright on her marks.")
    if not upright:
        lies = _("Water: heeled {heel:g}°, trimmed {trim:g}° by the bow.").format(
            heel=asked.heel_deg, trim=asked.trim_deg
        )
    return [
        _(
            "{lies} Sees: 2.08 to the root of metres, as lists of lights; 2.12, as NGA Pub. 9. "
            "Radio and radar: earth of 4/3 radius. Distances in nautical miles."
        ).format(lies=lies),
        _("Light: to an eye {eye}. To radio: to an antenna {antenna}. To target: by radar, {target}.").format(
            eye=_end(asked.eye_height_m),
            antenna=_end(asked.antenna_height_m),
            target=_end(asked.target_height_m),
        ),
    ]


def _end(height_m: float | None) -> str:
    return _("of no known height") if height_m is None else _("{height:g} m high").format(height=height_m)


def _number(figure: Figure, digits: int) -> str:
    return "?" if figure.value is None else f"{figure.value:.{digits}f}"
