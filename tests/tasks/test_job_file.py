"""A job file becomes a part with its cards on its head; what is wrong is told at its key, with its line."""

from fractions import Fraction
from pathlib import Path

import pytest

from crankwise.errors import BadFile, FaultsFound
from crankwise.files.head_toml import read_head
from crankwise.files.job_toml import Job, asked_part
from crankwise.tasks.heads import load_head
from crankwise.tasks.job_file import load_job, take_job, write_job_file
from crankwise.tasks.jobs import divided, made_part, ways_for
from tests.gear import PLATE_HEAD
from tests.house.tracked import HOUSE

WHEEL = '[part]\nkind = "spur"\nteeth = 127\nmodule = 1\n'

KINDS = [
    ("spur", "teeth = 127\nmodule = 1", 127, "space"),
    ("helical", "teeth = 30\nmodule = 2\nhelix = 30", 30, "space"),
    ("bevel", 'teeth = 24\ndp = 10\nmate = 36\nface = "3/4in"', 24, "space"),
    ("graduated", 'period = "12h25m"\nper_line = "5m"\nacross = "150mm"', 149, "line"),
    ("holes", 'count = 7\ncircle = "60mm"\nhole = "6mm"', 7, "hole"),
    ("flats", 'count = 6\nacross_flats = "17mm"', 6, "flat"),
    ("list", 'angles = ["0: open", "90: shut"]', 2, "position"),
    ("worm-wheel", 'teeth = 40\nmodule = 1\nworm = "16mm"', 40, "space"),
    ("ratchet", 'teeth = 24\noutside = "50mm"\ndepth = "3mm"', 24, "space"),
    ("splines", 'size = "6x23x26"', 6, "space"),
    ("sprocket", 'teeth = 17\nchain = "08B"', 17, "space"),
    ("clock-wheel", "teeth = 64\npinion = 8\nmodule = 1", 64, "space"),
]


@pytest.mark.parametrize(("kind", "keys", "positions", "work"), KINDS, ids=[kind for kind, *_ in KINDS])
def test_every_kind_becomes_a_part_with_its_cards(kind: str, keys: str, positions: int, work: str) -> None:
    made = take_job(f'[part]\nkind = "{kind}"\n{keys}').made
    assert len(made.part.divisions) == positions
    assert made.part.work == work
    assert [card.title for card in made.cards][-1] == "Measuring"
    assert made.name
    assert made.value is not None


def test_bare_divisions_have_no_cards() -> None:
    made = take_job('rim = "8in"\nwork = "line"\n[part]\ncount = 12\nevery = 3').made
    assert (len(made.part.divisions), made.part.work, made.cards) == (4, "line", ())
    assert made.part.rim_mm == Fraction(1016, 5)


def test_the_rim_that_is_asked_goes_before_the_parts_own() -> None:
    assert take_job(WHEEL).made.part.rim_mm == 127
    assert take_job(f'rim = "129mm"\n{WHEEL}').made.part.rim_mm == 129


def test_a_ring_tells_its_lines_and_numerals() -> None:
    made = load_job(str(HOUSE / "examples/jobs/tide-ring.toml")).made
    assert made.part.divisions.goes_round
    assert [mark.numeral for mark in made.part.marks if mark.numeral] == [str(hour) for hour in range(13)]
    assert made.part.marks[12].line_class == "long"
    assert any("work must turn" in note for note in made.notes)


@pytest.mark.parametrize(("which", "holes"), [(1, 37), (2, 41), (3, 49)])
def test_each_circle_of_a_plate_is_a_job_of_its_own(which: int, holes: int) -> None:
    made = take_job(
        '[part]\nkind = "holes"\ncount = 37\ncircle = "80mm"\nhole = "3mm"\n'
        f'also = ["41 on 90mm", "49 on 105mm"]\nwhich = {which}'
    ).made
    assert len(made.part.divisions) == holes
    assert f"which = {which}" in made.notes[0]


def test_the_floors_of_splines_lie_half_a_division_on() -> None:
    targets = take_job('[part]\nkind = "splines"\nsize = "6x23x26"\nwhich = 2').made.part.divisions.targets()
    assert next(iter(targets)) == (0, Fraction(1, 12))


def test_a_helical_gear_leaves_no_differential_indexing() -> None:
    head = load_head(str(HOUSE / "examples/plate-head.toml"))
    spur, helical = (
        take_job(f'[part]\nkind = "{kind}"\nteeth = 127\nmodule = 1\n{more}').made
        for kind, more in (("spur", ""), ("helical", "helix = 30"))
    )
    methods = {way.method for way in divided(head, spur).ways}
    left = {way.method for way in divided(head, helical).ways}
    assert "differential" in methods
    assert left < methods
    assert left <= {"plain", "block", "nearest-hole"}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            '[part]\nkind = "spur"\nteeth = 3\nmodule = -1\npressure_angle = 60',
            (
                r"part\.teeth \(j\.toml, line 3\): 3; a gear has 5 teeth or more.*\n"
                r"part\.module \(j\.toml, line 4\): -1 mm; a module is above 0.*\n"
                r"part\.pressure_angle \(j\.toml, line 5\): 60 degrees; from 10 to 35 degrees"
            ),
        ),
        (
            '[part]\nkind = "helical"\nteeth = 30\nmodule = 1\nhelix = 90',
            r"part\.helix \(j\.toml, line 5\): 90 degrees; a helical gear winds by 0 to 60",
        ),
        (
            '[part]\nkind = "helical"\nteeth = 30\nmodule = 1',
            r"part\.helix \(j\.toml, line 1\): missing; .* as 30",
        ),
        (
            '[part]\nkind = "graduated"\nlaw = "log("\nvalues = "1:10:1"\nacross = "150mm"',
            r"part\.law \(j\.toml, line 3\): 'log\(' cannot be read",
        ),
        (
            '[part]\nkind = "graduated"\nlines = 100\nacross = "50mm"\nface = "5mm"\nheight = "5mm"',
            r"part\.numerals \(j\.toml, line 1\): 5 mm high they take",
        ),
        (
            '[part]\nkind = "holes"\ncount = 70\ncircle = "60mm"\nhole = "6mm"',
            r"part\.hole \(j\.toml, line 5\): 6 mm; these holes run into one another",
        ),
        (
            '[part]\nkind = "holes"\ncount = 7\ncircle = "60mm"\nwhich = 2',
            r"part\.which \(j\.toml, line 5\): 2; ",
        ),
        (
            '[part]\nkind = "flats"\ncount = 2\nacross_flats = 17',
            r"part\.count \(j\.toml, line 3\): 2; fewer than 3",
        ),
        (
            "[part]\nangles = [0, 5, 3]",
            r"part\.angles \(j\.toml, line 2\): angle 3 of the list: 3 degrees comes after 5 degrees",
        ),
        (
            '[part]\nkind = "holes"\ncount = 7\ncircle = "60mm"\nalso = "4 on 9q"',
            r"part\.also \(j\.toml, line 5\): also, circle: '9q' is not a length",
        ),
        (
            '[part]\nkind = "graduated"\npoints = "0=0, 10=zz"\nacross = "90mm"',
            r"part\.points \(j\.toml, line 3\): points: point 2, '10': 'zz' is not an angle",
        ),
        ("[part]\ncount = 1.5", r"part\.count \(j\.toml, line 2\): 1\.5 is not a whole number"),
        ('rim = "8q"\n[part]\ncount = 12', r"rim \(j\.toml, line 1\): '8q' is not a length"),
        ('within = "1um"\n[part]\ncount = 12', r"within \(j\.toml, line 1\): .* needs the rim's diameter"),
        (
            f'work = "hole"\n{WHEEL}',
            r"work \(j\.toml, line 1\): hole; this kind of part says itself .*: space",
        ),
        (
            f'{WHEEL}cutters = "mine.toml"',
            r"part\.cutters \(j\.toml, line 5\): the path of a file, which does not",
        ),
    ],
)
def test_what_is_wrong_is_told_at_its_key(text: str, told: str) -> None:
    with pytest.raises(FaultsFound, match=told):
        take_job(text, "j.toml")


def test_a_sentence_calls_a_key_by_its_name_and_not_as_an_option() -> None:
    with pytest.raises(FaultsFound, match=r"^part: module and dp|^part\.\w+: .*as module 1 or dp 24"):
        made_part(Job(asked_part("spur", {"teeth": "20"})))


def test_a_job_from_elsewhere_opens_no_file() -> None:
    loaded = take_job('head = "/etc/hosts"\n[part]\ncount = 12')
    assert (loaded.head, loaded.job.head) == (None, None)


def test_a_job_and_its_head_lie_beside_each_other(tmp_path: Path) -> None:
    (tmp_path / "heads").mkdir()
    (tmp_path / "jobs").mkdir()
    (tmp_path / "heads/plate.toml").write_text(PLATE_HEAD, encoding="utf-8")
    path = tmp_path / "jobs/wheel.toml"
    job = Job(
        asked_part("spur", {"teeth": "60", "module": "1"}),
        "Wheel",
        str(tmp_path / "heads/plate.toml"),
        "plain",
    )
    write_job_file(str(path), job)
    assert 'head = "../heads/plate.toml"' in path.read_text(encoding="utf-8")
    loaded = load_job(str(path))
    assert loaded.head == read_head(PLATE_HEAD)
    assert {way.method for way in ways_for(loaded.job, read_head(PLATE_HEAD), loaded.made).ways} >= {"plain"}


def test_the_cutters_of_a_job_are_named_from_its_own_folder(tmp_path: Path) -> None:
    owned = tmp_path / "drawer.toml"
    owned.write_bytes((HOUSE / "examples/cutters/drawer.toml").read_bytes())
    (tmp_path / "jobs").mkdir()
    path = tmp_path / "jobs/wheel.toml"
    write_job_file(str(path), Job(asked_part("spur", {"teeth": "60", "module": "1", "cutters": str(owned)})))
    assert 'cutters = "../drawer.toml"' in path.read_text(encoding="utf-8")
    cutter = next(line for line in load_job(str(path)).made.cards[0].lines if line.what == "form cutter")
    assert cutter.note.startswith(("you own it", "your list"))


@pytest.mark.parametrize(
    ("name", "told"), [("not-there.toml", "there is no such file"), (".", "this is a folder")]
)
def test_a_file_that_cannot_be_read_is_told(tmp_path: Path, name: str, told: str) -> None:
    with pytest.raises(BadFile, match=f"{told}; give the path of a job file"):
        load_job(str(tmp_path / name))


def test_a_head_that_is_not_there_is_told(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text('head = "gone.toml"\n[part]\ncount = 12', encoding="utf-8")
    with pytest.raises(BadFile, match=r"gone\.toml: there is no such file"):
        load_job(str(path))
    assert load_job(str(path), with_head=False).head is None
