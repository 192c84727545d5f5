"""A job of every kind of part on the web: asked, shown with its cards, taken in and handed out as a file."""

import re
from html import unescape
from math import radians, sin

import pytest
from starlette.testclient import TestClient

from crankwise.files.job_keys import PART_KEYS
from crankwise.files.job_toml import read_job
from crankwise.web.part_forms import PART_FORMS
from tests.gear import BENCH_HEAD, MILL_TABLE, PLATE_HEAD
from tests.house.tracked import HOUSE
from tests.web.asking import JSON, new_head, new_run

ASKED = {
    "spur": {"teeth": "127", "module": "1"},
    "helical": {"teeth": "30", "module": "2", "helix": "30", "hand": "left", "transverse": "true"},
    "bevel": {"teeth": "24", "mate": "36", "dp": "10", "face": "3/4in"},
    "graduated": {"period": "12h25m", "per_line": "5m", "across": "150mm", "face": "14mm", "height": "2.4mm"},
    "holes": {"count": "7", "circle": "60mm", "hole": "6mm"},
    "flats": {"count": "6", "across_flats": "17mm"},
    "list": {"angles": "0: open; 90: shut"},
    "worm-wheel": {"teeth": "40", "module": "1", "worm": "16mm"},
    "rack": {"teeth": "40", "module": "1"},
    "ratchet": {"teeth": "24", "outside": "50mm", "depth": "3mm"},
    "splines": {"size": "6x23x26", "which": "2"},
    "sprocket": {"teeth": "17", "chain": "08B"},
    "clock-wheel": {"teeth": "64", "pinion": "8", "module": "1"},
}


def head_for(kind: str) -> str:
    return MILL_TABLE if PART_FORMS[kind].along else PLATE_HEAD


def new_part(visitor: TestClient, kind: str, head_id: int, **typed: str) -> int:
    answer = visitor.post(f"/jobs/new/{kind}", data={"head": str(head_id), **typed}, headers=JSON)
    assert answer.status_code == 200, answer.text
    return int(answer.json()["id"])


@pytest.mark.parametrize("kind", list(PART_FORMS))
def test_every_kind_is_asked_shown_and_handed_out(visitor: TestClient, kind: str) -> None:
    head_id = new_head(visitor, head_for(kind))
    assert "More kinds" in visitor.get(f"/jobs/new/{kind}").text
    job_id = new_part(visitor, kind, head_id, **ASKED[kind])
    page = visitor.get(f"/jobs/{job_id}").text
    assert "<summary>Measuring</summary>" in page
    assert "Ways to do it" in page
    assert "Cautions" in page
    handed = read_job(visitor.get(f"/jobs/{job_id}/job.toml").text)
    assert handed.part.kind == kind
    assert handed.part.values == ASKED[kind]
    again = visitor.post("/jobs/import", data={"toml": visitor.get(f"/jobs/{job_id}/job.toml").text})
    assert again.headers["Location"] == f"/jobs/{job_id + 1}"
    first, second = (visitor.get(f"/jobs/{number}?json").json() for number in (job_id, job_id + 1))
    assert first | {"id": 0} == second | {"id": 0}


def test_there_is_a_form_for_every_kind_and_a_field_for_every_key() -> None:
    assert set(PART_FORMS) == set(PART_KEYS) - {"divisions"}
    for kind, form in PART_FORMS.items():
        fields = [field.name for field in (*form.front, *(one for _, group in form.folded for one in group))]
        assert sorted(fields) == sorted(PART_KEYS[kind].all), kind


def test_the_cards_are_in_both_units(visitor: TestClient) -> None:
    job_id = new_part(visitor, "spur", new_head(visitor, BENCH_HEAD), **ASKED["spur"])
    page = visitor.get(f"/jobs/{job_id}").text
    assert "129.000 mm (5.0787 in)" in page
    assert "the one for 55-134 teeth" in page
    visitor.post("/preferences", data={"length": "inch", "angle": "decimal"})
    assert "5.0787 in (129.000 mm)" in visitor.get(f"/jobs/{job_id}").text


def test_a_job_tells_a_program_its_cards_and_marks(visitor: TestClient) -> None:
    job_id = new_part(visitor, "graduated", new_head(visitor, BENCH_HEAD), **ASKED["graduated"])
    answer = visitor.get(f"/jobs/{job_id}?json").json()
    assert [card["title"] for card in answer["part"]["cards"]] == ["Preparation", "Measuring"]
    assert answer["part"]["marks"][12] == {"line_class": "long", "numeral": "1", "note": ""}
    assert read_job(answer["asked"]["part"]).part.values == ASKED["graduated"]


def test_bare_divisions_have_no_part(visitor: TestClient) -> None:
    job_id = int(
        visitor.post(
            "/jobs/new", data={"head": str(new_head(visitor, BENCH_HEAD)), "count": "12"}, headers=JSON
        ).json()["id"]
    )
    assert visitor.get(f"/jobs/{job_id}?json").json()["part"] is None
    assert "The part" not in visitor.get(f"/jobs/{job_id}").text
    assert read_job(visitor.get(f"/jobs/{job_id}/job.toml").text).part.values == {"count": "12"}


def test_the_marks_stand_on_the_sheet_and_in_the_run(visitor: TestClient) -> None:
    job_id = new_part(visitor, "graduated", new_head(visitor, BENCH_HEAD), **ASKED["graduated"])
    sheet = visitor.get(f"/jobs/{job_id}/sheet").text
    assert re.search(r'<td class="mark">long line, numeral 1</td>', sheet)
    run_id = new_run(visitor, job_id)
    assert "numeral" in visitor.get(f"/runs/{run_id}").text.lower()


def test_a_helical_gear_offers_no_differential_indexing(visitor: TestClient) -> None:
    head_id = new_head(visitor, (HOUSE / "examples/plate-head.toml").read_text(encoding="utf-8"))
    spur = new_part(visitor, "spur", head_id, teeth="127", module="1")
    helical = new_part(visitor, "helical", head_id, teeth="127", module="1", helix="30")
    ways = {
        job: {way["method"]: way["key"] for way in visitor.get(f"/jobs/{job}?json").json()["ways"]}
        for job in (spur, helical)
    }
    assert "differential" in ways[spur]
    assert "differential" not in ways[helical]
    refused = visitor.post(f"/jobs/{helical}/way", data={"way": ways[spur]["differential"]}, headers=JSON)
    assert refused.status_code == 404
    assert "Differential indexing cannot be used" in visitor.get(f"/jobs/{helical}").text


def test_the_change_gears_of_a_helix_stand_on_its_page_and_at_the_head_of_its_sheet(
    visitor: TestClient,
) -> None:
    head_id = new_head(visitor, (HOUSE / "examples/plate-head.toml").read_text(encoding="utf-8"))
    typed = {"teeth": "30", "module": "2", "helix": "30", "leadscrew": "5mm", "head_ratio": "40"}
    job_id = new_part(visitor, "helical", head_id, **typed, train="28/48 x 40/44")
    assert "Change gears for the lead" in visitor.get(f"/jobs/{job_id}").text
    for sheet in ("sheet", "sheet.html"):
        page = unescape(visitor.get(f"/jobs/{job_id}/{sheet}").text)
        assert "28 on the table's screw to 48, second on the stud" in page
        assert "swung 30.0000°, right hand" in page


def test_nothing_says_to_lock_the_spindle_of_a_helical_gear(visitor: TestClient) -> None:
    head_id = new_head(visitor, PLATE_HEAD)
    spur = new_part(visitor, "spur", head_id, teeth="30", module="2")
    helical = new_part(visitor, "helical", head_id, teeth="30", module="2", helix="30")
    pages = {
        job_id: [
            re.sub(r"<script.*?</script>", "", unescape(visitor.get(address).text), flags=re.DOTALL)
            for address in (
                f"/jobs/{job_id}",
                f"/jobs/{job_id}/sheet",
                f"/jobs/{job_id}/sheet.html",
                f"/jobs/{job_id}/sheet.csv",
                f"/runs/{run_id}",
            )
        ]
        for job_id in (spur, helical)
        for run_id in [new_run(visitor, job_id)]
    }
    for straight, winding in zip(pages[spur], pages[helical], strict=True):
        assert re.search(r"cut with it unlocked|\block\b", straight)
        assert not re.search(r"cut with it unlocked|\block\b", winding)
    page, sheet, *_, run = pages[helical]
    assert "the spindle is NOT locked and the plate's stop is out" in page
    assert "plate's stop out, spindle not locked" in sheet
    assert "<li>move pin</li>" in run
    assert "the spindle is NOT locked" in visitor.get(f"/runs/{new_run(visitor, helical, answer=None)}").text
    card = visitor.get(f"/runs/{new_run(visitor, helical)}/pocket.html").text
    assert '"move pin"' in card
    assert '"unlock"' not in card


@pytest.mark.parametrize(
    ("kind", "typed", "sentence"),
    [
        ("spur", {"teeth": "12", "module": "-1"}, "module: -1 mm; a module is above 0"),
        ("spur", {"teeth": "3", "module": "1"}, "teeth: 3; a gear has 5 teeth or more"),
        (
            "spur",
            {"teeth": "12", "module": "1", "pressure_angle": "60"},
            "pressure angle: 60 degrees; from 10",
        ),
        ("spur", {"teeth": "12"}, "as module 1 or dp 24"),
        ("spur", {"teeth": "12", "module": "1", "cutters": "/etc/passwd"}, "cutters: the path of a file"),
        ("helical", {"teeth": "12", "module": "1", "helix": "90"}, "helix: 90 degrees; a helical gear winds"),
        (
            "helical",
            {"teeth": "12", "module": "1", "helix": "0"},
            "helix: 0 degrees; straight teeth are a spur",
        ),
        (
            "spur",
            {"teeth": "12", "module": "24DP"},
            "is a diametral pitch; give it as dp 24, without a module",
        ),
        ("spur", {"teeth": "12", "module": "1", "mate": "2"}, "mate: 2; a gear has 5 teeth or more"),
        (
            "graduated",
            {"lines": "100", "across": "50mm", "face": "5mm", "height": "5mm"},
            "numerals: 5 mm high they take",
        ),
        (
            "graduated",
            {"law": "arc *", "values": "1:10:1", "across": "90mm"},
            "law: &#39;arc *&#39; cannot be read",
        ),
        (
            "holes",
            {"count": "70", "circle": "60mm", "hole": "6mm"},
            "hole: 6 mm; these holes run into one another",
        ),
        ("flats", {"count": "6", "across_flats": "17mm", "bar": "17mm"}, "bar: 17"),
        ("list", {"angles": "0: a; 400: b"}, "a full turn or more past the first"),
    ],
)
def test_nonsense_is_told_at_its_field_and_the_form_stays_filled(
    visitor: TestClient, kind: str, typed: dict[str, str], sentence: str
) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    answer = visitor.post(f"/jobs/new/{kind}", data={"head": str(head_id), "name": "<b>Mine</b>", **typed})
    assert answer.status_code == 422
    assert sentence in answer.text
    assert 'value="&lt;b&gt;Mine&lt;/b&gt;"' in answer.text
    assert visitor.get("/jobs?json").json() == {"jobs": []}


def test_a_file_that_brings_its_head_brings_it_once(visitor: TestClient) -> None:
    new_head(visitor, BENCH_HEAD)
    text = '[part]\nkind = "flats"\ncount = 6\nacross_flats = 17\n\n[head]\n' + re.sub(
        r"^(\[\[?)", r"\1head.", PLATE_HEAD, flags=re.MULTILINE
    )
    for _ in range(2):
        assert visitor.post("/jobs/import", data={"toml": text}).status_code == 303
    assert len(visitor.get("/heads?json").json()["heads"]) == 2


@pytest.mark.parametrize(
    ("toml", "sentence"),
    [
        ("[part]\ncount = 12", "head: the file brings none; choose the head to divide on"),
        ('head = "../../secret.toml"\n[part]\ncount = 12', "head: the file brings none"),
        ("[part]\ncuont = 12", "part.cuont (line 2): this key is not known; did you mean count?"),
        (
            '[part]\nkind = "spur"\nteeth = 3\nmodule = 1',
            "part.teeth (line 3): 3; a gear has 5 teeth or more",
        ),
        ("", "part: missing"),
    ],
)
def test_a_file_that_is_wrong_is_told_and_stays_in_the_form(
    visitor: TestClient, toml: str, sentence: str
) -> None:
    answer = visitor.post("/jobs/import", data={"toml": toml})
    assert answer.status_code == 422
    assert sentence in answer.text.replace("&#34;", '"')
    assert visitor.get("/jobs?json").json() == {"jobs": []}
    assert visitor.get("/heads?json").json()["heads"] == []


def test_a_head_is_not_kept_for_a_job_that_cannot_be(visitor: TestClient) -> None:
    head = re.sub(r"^(\[\[?)", r"\1head.", BENCH_HEAD, flags=re.MULTILINE)
    answer = visitor.post("/jobs/import", data={"toml": f'way = "magic"\n[part]\ncount = 12\n[head]\n{head}'})
    assert answer.status_code == 404
    assert "way: &#39;magic&#39; is none of the ways" in answer.text
    assert visitor.get("/heads?json").json()["heads"] == []


@pytest.mark.parametrize("kind", list(PART_FORMS))
def test_every_kind_has_its_picture_and_its_print(visitor: TestClient, kind: str) -> None:
    job_id = new_part(visitor, kind, new_head(visitor, head_for(kind)), **ASKED[kind])
    page = visitor.get(f"/jobs/{job_id}").text
    assert page.count('class="part" role="img"') == 1
    printed = visitor.get(f"/jobs/{job_id}/full-size?form=svg")
    assert printed.headers["Content-Type"].startswith("image/svg+xml")
    assert "<svg" in printed.text
    assert "100 mm" in printed.text


def test_a_gear_of_400_teeth_is_a_page_under_300_kb(visitor: TestClient) -> None:
    job_id = new_part(visitor, "spur", new_head(visitor, BENCH_HEAD), teeth="400", module="1")
    assert len(visitor.get(f"/jobs/{job_id}").content) < 300_000


def test_a_print_is_corrected_for_the_printer_or_says_what_to_type(visitor: TestClient) -> None:
    job_id = new_part(visitor, "flats", new_head(visitor, BENCH_HEAD), **ASKED["flats"])
    address = f"/jobs/{job_id}/full-size?form=svg"
    true, corrected = (visitor.get(f"{address}{more}").text for more in ("", "&measured=99.6mm"))
    assert true != corrected
    for query, told in (("form=gif", "no form of a print"), ("measured=long", "The bar measures: ")):
        refused = visitor.get(f"/jobs/{job_id}/full-size?{query}")
        assert refused.status_code == 422
        assert told in refused.text
        assert f'href="/jobs/{job_id}">Back to the job</a>' in refused.text
        assert "scale-measured" not in refused.text


def test_a_reading_on_a_gear_is_answered_with_how_much_deeper_to_go(visitor: TestClient) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    job_id = new_part(visitor, "spur", head_id, teeth="40", module="1", pin="1.728mm")
    assert "How much deeper?" in visitor.get(f"/jobs/{job_id}").text
    meant = 13.844778  # over 5 teeth: published table of spans, module 1, 20 degrees
    asked = f"/jobs/{job_id}?read_span={meant + 0.12:.6f}mm"
    (told,) = visitor.get(asked, headers=JSON).json()["infeeds"]
    assert told["what"] == "span over 5"
    # A span grows by twice the infeed and the sine of the pressure angle.
    assert told["deeper_mm"] == pytest.approx(0.12 / 2 / sin(radians(20)), abs=1e-3)
    assert (
        "Span over 5: you read 0.120 mm (0.0047 in) over: go 0.175 mm (0.0069 in) deeper."
        in visitor.get(asked).text
    )
    assert visitor.get(f"/jobs/{job_id}", headers=JSON).json()["infeeds"] == []


@pytest.mark.parametrize(
    ("query", "sentence"),
    [
        ("read_span=99mm", "span over 5: a reading of 99.000 mm"),
        ("read_span=wide", "read-span: &#39;wide&#39; is not a length"),
        ("read_pins=42mm", "over which pins?"),
    ],
)
def test_a_reading_that_cannot_be_is_told_and_stays_in_its_field(
    visitor: TestClient, query: str, sentence: str
) -> None:
    job_id = new_part(visitor, "spur", new_head(visitor, BENCH_HEAD), teeth="40", module="1")
    answer = visitor.get(f"/jobs/{job_id}?{query}")
    assert 400 <= answer.status_code < 500
    assert sentence in answer.text
    assert f'value="{query.partition("=")[2]}"' in answer.text


def test_on_a_ring_nothing_of_a_gear_is_read(visitor: TestClient) -> None:
    job_id = new_part(visitor, "graduated", new_head(visitor, BENCH_HEAD), **ASKED["graduated"])
    assert "How much deeper?" not in visitor.get(f"/jobs/{job_id}").text
    assert visitor.get(f"/jobs/{job_id}", headers=JSON).json()["infeeds"] is None


def test_a_helix_on_a_head_without_plates_says_that_the_pin_needs_one(visitor: TestClient) -> None:
    typed = {"head": str(new_head(visitor, BENCH_HEAD)), **ASKED["helical"]}
    refused = visitor.post("/jobs/new/helical", data=typed, headers=JSON)
    assert refused.status_code == 422
    assert "by moving the pin on a hole plate, and Bench head has none" in refused.text


def test_a_thread_dial_says_on_its_page_where_the_half_nuts_close(visitor: TestClient) -> None:
    typed = {"thread_dial": "16", "lead": "4tpi", "threads": "8tpi,11tpi,1.5mm", "across": "40mm"}
    page = visitor.get(f"/jobs/{new_part(visitor, 'graduated', new_head(visitor, PLATE_HEAD), **typed)}").text
    assert "Where the half nuts close" in page
    assert re.search(r"11 tpi.*?every 4 lines", page, re.DOTALL)


def test_a_helix_takes_the_ratio_and_the_change_gears_of_the_head_that_was_chosen(
    visitor: TestClient,
) -> None:
    head_id = new_head(visitor, (HOUSE / "examples/plate-head.toml").read_text(encoding="utf-8"))
    typed = {"teeth": "30", "module": "2", "helix": "30", "leadscrew": "5mm"}
    job_id = new_part(visitor, "helical", head_id, **typed)
    kept = read_job(visitor.get(f"/jobs/{job_id}/job.toml").text).part.values
    assert kept == typed | {"head_ratio": "40", "train": "28/48 x 40/44"}
    bare = visitor.post(
        "/jobs/new/helical", data={"head": str(new_head(visitor, BENCH_HEAD)), **typed}, headers=JSON
    )
    assert "none given; write the gears owned" in bare.text


def test_a_pinion_is_shown_its_own_cards_and_its_wheel_the_wheels(visitor: TestClient) -> None:
    head_id = new_head(visitor, PLATE_HEAD)
    wheel, pinion = (
        new_part(visitor, "clock-wheel", head_id, **ASKED["clock-wheel"], which=which) for which in ("1", "2")
    )
    pages = [visitor.get(f"/jobs/{job}").text for job in (wheel, pinion)]
    assert ["thin brass in a stack" in page for page in pages] == [True, False]
    assert ["silver steel" in page for page in pages] == [False, True]
    assert ["wheel, outside diameter" in page for page in pages] == [True, False]
    assert "pitch, from leaf to leaf" in pages[1]
