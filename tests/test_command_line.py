"""The command line as a person meets it: what it prints, what it exits with, what it leaves alone."""

import csv
import errno
import json
import os
import subprocess
import sys
from pathlib import Path

import pdfplumber
import pytest
from builders import a_fitting, a_foot, a_layout

from mastlayout.__main__ import _options, main
from mastlayout.arguments import parser
from mastlayout.model.fitting import HoleBuilt
from mastlayout.storage import writing
from mastlayout.storage.saving import save

ROOT = Path(__file__).parent.parent
WHIMBREL = ROOT / "demo_masts" / "whimbrel.toml"


@pytest.mark.parametrize("given", [[], ["some.toml"], ["no such command"]])
def test_a_window_asked_for_by_a_name_alone_is_the_one_the_grammar_knows(given):
    """Read without the grammar of all commands, to the same."""
    assert vars(_options(given)) == vars(parser().parse_args(["window", *given]))


def test_a_fault_is_exit_one_and_the_last_line_counts(capsys):
    """Findings, loudest first, then how many of each."""
    assert main(["check", str(ROOT / "demo_masts" / "turnstone.toml")]) == 1
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith("FAULT")
    faults = sum(line.startswith("FAULT") for line in lines)
    assert faults
    assert f"{faults} fault" in lines[-1]


def test_nothing_at_fault_is_exit_nought(tmp_path, capsys):
    """Cautions and unknowns are no faults."""
    path = tmp_path / "plain.toml"
    save(a_layout(), path)
    assert main(["check", str(path)]) == 0
    assert "0 faults" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("text", "word"),
    [
        (b"\x80\x81\x82", "no text"),
        (b"a = " + b"[" * 5000, "deep"),
        (b"format = 9", "format 9 is not known"),
        (b"format = 1\n[boat]\nname = 3\n", "boat.name"),
        (None, "is not there"),
    ],
)
def test_a_file_that_cannot_be_read_is_exit_two_and_a_sentence(tmp_path, capsys, text, word):
    """Nothing on standard output, nothing written, no traceback."""
    path = tmp_path / "layout.toml"
    if text is not None:
        path.write_bytes(text)
    before = sorted(tmp_path.iterdir())
    for command in (["check"], ["ranges"], ["papers", "--to", str(tmp_path / "out")]):
        assert main([command[0], str(path), *command[1:]]) == 2
        printed = capsys.readouterr()
        assert word in printed.err
        assert printed.out == ""
    assert sorted(tmp_path.iterdir()) == before


def test_papers_write_every_sheet_and_twice_the_same(tmp_path, capsys):
    """The same day, the same bytes; a folder is made where there is none."""
    for name in ("one", "two"):
        assert main(["papers", str(WHIMBREL), "--to", str(tmp_path / name), "--date", "2026-11-25"]) == 0
    one, two = ({p.name: p.read_bytes() for p in (tmp_path / n).iterdir()} for n in ("one", "two"))
    assert one == two
    assert {name.split("-", 1)[1] for name in one} == {
        "drill.pdf",
        "templates.pdf",
        "template-13.dxf",
        "template-13.svg",
        "template-14.dxf",
        "template-14.svg",
        "mount.pdf",
        "labels.pdf",
        "chair.pdf",
        "elevation.pdf",
        "heights.pdf",
        "lights.pdf",
        "measure.pdf",
        "chafe.pdf",
        "findings.pdf",
        "schedule.xlsx",
        "holes.csv",
        "fittings.csv",
        "order.csv",
        "order.pdf",
    }
    assert capsys.readouterr().out.count("whimbrel-") == 40


def test_a_photo_that_is_gone_holds_no_paper_back(tmp_path, capsys):
    """One sentence names it and where it should be; the papers print its name."""
    layout = tmp_path / "plan.toml"
    text = WHIMBREL.read_text(encoding="utf-8")
    built = (
        '\n[[fittings.holes_built]]\nnumber = 1\nfrom_masthead = 9667\ngirth = "30 to starboard of ahead"\n'
        'by = "Jo"\nday = "2026-11-26"\nphoto = "photos/13-1.jpg"\n'
    )
    at = text.index("[[fittings]]", text.index('id = "hailer-1"'))
    layout.write_text(f"{text[:at]}{built}\n{text[at:]}", encoding="utf-8")
    assert main(["papers", str(layout), "--to", str(tmp_path / "out"), "--date", "2026-11-25"]) == 0
    said = capsys.readouterr().err
    assert "The photo photos/13-1.jpg is gone" in said
    holes = (tmp_path / "out" / "whimbrel-holes.csv").read_text(encoding="utf-8")
    assert "as built, Jo, 2026-11-26, photo photos/13-1.jpg: as planned" in holes


def odd_layout(tmp_path):
    """A layout of all that is odd: feet too wide, on the track, with a hole outside; names; a photo gone."""
    wide = a_foot(across_mm=600)
    off = a_foot(holes=[{"across_mm": 70.0, "along_mm": 0.0, "fastener": "M6 tapped, stainless"}])
    built = HoleBuilt(
        number=1, from_masthead_mm=8000.0, girth="aft", by="Jo", day="2026-11-26", photo="gone.jpg"
    )
    fittings = (
        a_fitting("wide", tag=1, name="=1+1 <b>&", in_hand=wide),
        a_fitting("track", tag=2, name="N" * 200, from_masthead_mm=6000.0, girth="aft"),
        a_fitting("off", tag=3, name="@sum & <i>", from_masthead_mm=9000.0, in_hand=off, note="=cmd|'x'!A1",
                  holes_built=(built,)),
    )  # fmt: skip
    path = tmp_path / "odd.toml"
    save(a_layout(fittings=fittings), path)
    return path


def test_bad_input_is_said_and_the_papers_are_made(tmp_path, capsys):
    """Each oddity has its sentence; every other paper is there, and no cell is a formula."""
    layout, out = odd_layout(tmp_path), tmp_path / "out"
    assert main(["check", str(layout)]) == 1
    said = capsys.readouterr().out
    for words in ("wider than the girth", "its foot lies", "over the track", "15 outside its foot"):
        assert words in said
    assert main(["papers", str(layout), "--to", str(out), "--date", "2026-11-25"]) == 0
    assert "The photo gone.jpg is gone" in capsys.readouterr().err
    names = {path.name for path in out.iterdir()}
    assert {f"test-{kind}.pdf" for kind in ("drill", "templates", "mount", "order", "findings")} <= names
    with pdfplumber.open(out / "test-templates.pdf") as pdf:
        text = " ".join(page.extract_text() for page in pdf.pages)
    assert "it would meet itself" in text  # the foot wider than the mast, on the list of what has no template
    assert "lies outside its foot" in text
    for name in ("test-holes.csv", "test-fittings.csv", "test-order.csv"):
        cells = [cell for row in csv.reader((out / name).open(encoding="utf-8-sig")) for cell in row]
        assert not [cell for cell in cells if cell[:1] in ("=", "@", "+")]


def failing_for(name, number):
    """A rename that fails for one file."""
    true_replace = os.replace

    def replace(source, target):
        if Path(target).name == name:
            raise OSError(number, os.strerror(number))
        true_replace(source, target)

    return replace


@pytest.mark.parametrize(
    ("number", "word"), [(errno.ENOSPC, "the disk is full"), (errno.EACCES, "may not be written to")]
)
def test_one_paper_that_cannot_be_written_leaves_the_others(tmp_path, capsys, monkeypatch, number, word):
    """A sentence, no half file, every other paper made; it is no success."""
    layout, out = tmp_path / "plan.toml", tmp_path / "out"
    save(a_layout(), layout)
    monkeypatch.setattr(writing.os, "replace", failing_for("test-mount.pdf", number))
    assert main(["papers", str(layout), "--to", str(out), "--date", "2026-11-25"]) == 2
    said = capsys.readouterr()
    assert word in said.err
    assert "test-mount.pdf was not saved" in said.err
    names = {path.name for path in out.iterdir()}
    assert {"test-drill.pdf", "test-order.pdf", "test-findings.pdf"} <= names
    assert not [name for name in names if "mount" in name or name.endswith(".part")]


@pytest.mark.parametrize(("day", "word"), [("yesterday", "is no day"), ("2026-13-01", "is no day")])
def test_a_day_that_is_none_is_refused(tmp_path, capsys, day, word):
    """And nothing is printed."""
    assert main(["papers", str(WHIMBREL), "--to", str(tmp_path / "out"), "--date", day]) == 2
    assert word in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


def test_a_folder_that_cannot_be_made_is_refused(tmp_path, capsys):
    """A file stands where the folder should."""
    (tmp_path / "out").write_text("mine")
    assert main(["papers", str(WHIMBREL), "--to", str(tmp_path / "out")]) == 2
    assert "cannot be made a folder" in capsys.readouterr().err
    assert (tmp_path / "out").read_text() == "mine"


def test_what_to_measure_first_from_six_answers(tmp_path, capsys):
    """The first thing a newcomer prints; a wrong length is a sentence."""
    answers = [
        "--yacht",
        "Plover",
        "--length",
        "17.3 m",
        "--stands",
        "keel",
        "--spreader-pairs",
        "2",
        "--headsail",
        "furled",
        "--gear",
        "radome",
    ]
    assert main(["measure", "--to", str(tmp_path), *answers]) == 0
    assert (tmp_path / "plover-measure.pdf").read_bytes().startswith(b"%PDF")
    assert main(["measure", "--to", str(tmp_path), "--length", "17,3 m"]) == 2
    assert "comma" in capsys.readouterr().err


def test_heights_say_what_the_water_is_not_known_for(tmp_path, capsys):
    """Without a waterline the heights along the mast are there, those above the water are asked for."""
    path = tmp_path / "dry.toml"
    text = WHIMBREL.read_text(encoding="utf-8")
    path.write_text("\n".join(line for line in text.splitlines() if not line.startswith("heel_above_water")))
    assert main(["ranges", str(path)]) == 0
    row = next(line for line in capsys.readouterr().out.splitlines() if line.endswith("Hailer"))
    assert row.split()[:2] == ["9685", "7615"]
    assert row.split()[3:6] == ["?", "?", "?"]


def test_no_display_is_needed():
    """With nothing to draw on, check and papers run; nothing loads Qt."""
    bare = {k: v for k, v in os.environ.items() if k not in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")}
    done = subprocess.run(
        [sys.executable, "-m", "mastlayout", "check", str(WHIMBREL)],
        cwd=ROOT,
        env=bare,
        check=False,
        capture_output=True,
        text=True,
    )
    assert done.returncode == 1, "the planted faults"
    assert "Traceback" not in done.stderr


def test_one_height_edited_by_hand_changes_the_findings(tmp_path, capsys):
    """The hailer moved down by hand meets other things than before."""
    main(["check", str(WHIMBREL)])
    before = capsys.readouterr().out
    path = tmp_path / "whimbrel.toml"
    text = WHIMBREL.read_text(encoding="utf-8")
    assert text.count("from_masthead = 9685\n") == 1
    path.write_text(text.replace("from_masthead = 9685\n", "from_masthead = 9900\n"))
    main(["check", str(path)])
    after = capsys.readouterr().out
    assert "9703 from the masthead" in before
    assert "9703 from the masthead" not in after
    assert "Fog horn: stands 80 into Hailer" in after


def test_ranges_takes_the_other_ends_in_any_unit(capsys):
    """A light at 16 m seen by an eye at 9 m is seen 2.08 x (4 + 3) NM away, whatever the eye is typed in."""
    said = []
    for eye in ("9 m", "29 ft 6.33071 in"):
        assert main(["ranges", str(WHIMBREL), "--json", "--eye", eye, "--heel-angle", "20"]) == 0
        said.append(json.loads(capsys.readouterr().out))
    assert said[0]["asked"] == said[1]["asked"]  # to the millimetre
    assert said[0]["asked"]["eye_height_m"] == 9.0
    for row in said[0]["heights"]:
        upright = row["above_water_m"]["value"]
        assert row["geographic_range_nm"]["value"] == pytest.approx(2.08 * (upright**0.5 + 3.0), abs=0.005)
        assert row["above_water_m"]["inputs"]["heel_deg"] == 20.0


@pytest.mark.parametrize(
    ("option", "typed", "allowed"),
    [("--eye", "-1 m", "0 to 100 m"), ("--heel-angle", "200", "60"), ("--trim", "steep", "angle"),
     ("--target", "2,5 m", "point")],
)  # fmt: skip
def test_ranges_refuses_what_cannot_be_with_a_sentence(capsys, option, typed, allowed):
    """What, and what is allowed; nothing is printed."""
    assert main(["ranges", str(WHIMBREL), f"{option}={typed}"]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert allowed in said.err


def test_places_says_where_a_fitting_would_be_clear(tmp_path, capsys):
    """Two boxes 4 apart: by its id or by its number, as text and as JSON."""
    boxes = (a_fitting(), a_fitting("box-2", tag=7, from_masthead_mm=8084.0))
    path = tmp_path / "boxes.toml"
    save(a_layout(fittings=boxes), path)
    assert main(["places", str(path), "box-2"]) == 0
    said = capsys.readouterr()
    assert "Clears at 8090 from the masthead (6 lower)" in said.out
    assert said.err == ""
    assert main(["places", str(path), "7", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert (told["schema"], told["fitting"]) == ("mastlayout/places/1", "box-2")
    first = told["findings"][0]["clears"]["places"][0]
    assert (first["moves"], first["from_masthead_mm"], first["not_checked"]) == ("box-2", 8090.0, [])


def test_check_with_places_says_it_with_each_finding(tmp_path, capsys):
    """Only where it is asked for: it takes longer than a check may."""
    path = tmp_path / "boxes.toml"
    save(a_layout(fittings=(a_fitting(), a_fitting("box-2", from_masthead_mm=8084.0))), path)
    main(["check", str(path), "--json", "--places"])
    near = next(
        own for own in json.loads(capsys.readouterr().out)["findings"] if own["code"] == "clearance/fitting"
    )
    assert near["clears"]["sentence"].startswith("Clears at 8090 from the masthead (6 lower)")
    main(["check", str(path), "--json"])
    assert all(own["clears"] is None for own in json.loads(capsys.readouterr().out)["findings"])
    main(["check", str(path), "--places"])
    assert "Clears at 8090" in capsys.readouterr().out


def test_places_of_nothing_open_and_of_nobody(tmp_path, capsys):
    """A sentence each; what is not there is exit two, with the nearest name."""
    path = tmp_path / "plain.toml"
    save(a_layout(), path)
    assert main(["places", str(path), "box-1"]) == 0
    assert capsys.readouterr().out == "box-1: nothing open that another place would clear.\n"
    assert main(["places", str(path), "box"]) == 2
    assert "box-1" in capsys.readouterr().err
