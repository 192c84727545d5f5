import re
from dataclasses import replace
from html import unescape

from starlette.testclient import TestClient

from crankwise.files.head_toml import read_head
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD
from tests.web.asking import FRAGMENT, JSON, new_head

WRONG = {
    "as": "form",
    "name": "Shed",
    "worm.wheel_teeth": "72",
    "dial.marks": "ten",
    "plates": "15 16 1\n20 20",
}


def test_a_head_is_kept_from_a_form(visitor: TestClient) -> None:
    form = {
        "as": "form",
        "name": "Bench head",
        "worm.wheel_teeth": "72",
        "worm.clockwise": "increases",
        "dial.marks": "100",
        "dial.read_to": "1/2",
        "dial.clockwise": "increases",
        "dial.settable": "yes",
        "ring.graduations": "360",
        "ring.read_to": "1/2",
        "ring.numbered": "clockwise",
    }
    answer = visitor.post("/heads/new", data=form)
    assert (answer.status_code, answer.headers["Location"]) == (303, "/heads/1")
    assert read_head(visitor.get("/heads/1/head.toml").content) == read_head(BENCH_HEAD)


def test_what_is_wrong_is_told_at_its_field_and_the_form_stays_filled(visitor: TestClient) -> None:
    answer = visitor.post("/heads/new", data=WRONG)
    assert answer.status_code == 422
    assert "Dial, “Marks all round”: &#39;ten&#39;; give a whole number" in answer.text
    assert "Hole plates, plate 1, circle 3: 1 hole; a hole circle has 2 or more" in answer.text
    assert 'value="ten"' in answer.text
    assert "15 16 1\n20 20</textarea>" in answer.text
    assert visitor.get("/heads?json").json() == {"heads": []}


def test_the_form_says_what_a_file_would(visitor: TestClient) -> None:
    form = visitor.post("/heads/new", data=WRONG, headers=JSON).json()["error"]["faults"]
    toml = (
        'name = "Shed"\n[worm]\nwheel_teeth = 72\n[dial]\nmarks = "ten"\n'
        "[[plates]]\ncircles = [15, 16, 1]\n[[plates]]\ncircles = [20, 20]"
    )
    file = visitor.post("/heads/import", data={"toml": toml}, headers=JSON).json()["error"]["faults"]
    assert [(fault["place"], fault["message"]) for fault in form] == [
        (fault["place"], fault["message"]) for fault in file
    ]
    assert [fault["line"] for fault in form] == [None] * len(form)
    assert [fault["line"] for fault in file] == [5, 7, 9]


def test_a_head_is_changed_by_form_and_as_a_file(visitor: TestClient) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    toml = visitor.get(f"/heads/{head_id}?json").json()["toml"]
    answer = visitor.post(f"/heads/{head_id}/edit", data={"as": "file", "toml": toml.replace("100", "125")})
    assert answer.status_code == 303
    assert "marks = 125" in visitor.get(f"/heads/{head_id}?json").json()["toml"]
    assert len(visitor.get("/heads?json").json()["heads"]) == 1


def test_a_file_that_is_wrong_stays_in_the_field(visitor: TestClient) -> None:
    answer = visitor.post("/heads/new", data={"as": "file", "toml": 'name = "x"\n[dial]\nmarks = 0\n'})
    assert answer.status_code == 422
    assert "dial.marks (line 3): 0 marks" in answer.text
    assert "marks = 0\n</textarea>" in answer.text


def test_a_file_is_taken_in_by_upload(visitor: TestClient) -> None:
    answer = visitor.post(
        "/heads/import", files={"file": ("head.toml", PLATE_HEAD.encode())}, data={"toml": ""}
    )
    assert answer.status_code == 303
    answer = visitor.post("/heads/import", files={"file": ("head.toml", b"\xff\xfe\x00")}, data={"toml": ""})
    assert answer.status_code == 422
    assert "this is not UTF-8 text" in answer.text


def test_a_head_handed_out_and_taken_in_is_the_same(visitor: TestClient) -> None:
    first = new_head(visitor, PLATE_HEAD)
    file = visitor.get(f"/heads/{first}/head.toml")
    assert 'filename="plate-head.toml"' in file.headers["Content-Disposition"]
    second = new_head(visitor, file.text)
    assert read_head(visitor.get(f"/heads/{second}/head.toml").text) == read_head(PLATE_HEAD)


def test_the_drawing_follows_what_is_typed(visitor: TestClient) -> None:
    form = {"as": "form", "name": "", "worm.wheel_teeth": "72", "dial.marks": "100", "plates": "15 1"}
    answer = visitor.post("/heads/drawing", data=form, headers=FRAGMENT)
    assert answer.status_code == 200
    assert "Dial of 100 marks" in answer.text
    assert "Hole plates, plate 1, circle 2: 1 hole" in answer.text
    assert "<html" not in answer.text
    file = visitor.post("/heads/drawing", data={"as": "file", "toml": BULL_WHEEL}, headers=FRAGMENT)
    assert "Wheel of 60 notches" in file.text


def test_the_drawing_is_there_without_script_too(visitor: TestClient) -> None:
    form = {"as": "form", "name": "x", "worm.wheel_teeth": "72", "dial.marks": "100", "draw": "1"}
    answer = visitor.post("/heads/new", data=form)
    assert answer.status_code == 200
    assert "Dial of 100 marks" in answer.text
    assert 'value="72"' in answer.text
    assert visitor.get("/heads?json").json() == {"heads": []}


def test_a_dropped_head_is_gone(visitor: TestClient) -> None:
    head_id = new_head(visitor, BULL_WHEEL)
    assert visitor.post(f"/heads/{head_id}/drop").headers["Location"] == "/heads"
    assert visitor.get(f"/heads/{head_id}").status_code == 404


def test_a_name_with_markup_emoji_and_right_to_left_is_shown_as_text(visitor: TestClient) -> None:
    name = "<script>alert(1)</script> 🌊 ראש \u202e"
    head_id = new_head(visitor, BULL_WHEEL.replace("Bull wheel", name))
    for path in (f"/heads/{head_id}", "/heads", f"/heads/{head_id}/edit", "/jobs/new"):
        page = visitor.get(path).text
        assert "<script>alert" not in page
        assert "&lt;script&gt;alert(1)&lt;/script&gt; 🌊 ראש" in page
    assert (
        'filename="script-alert-1-script.toml"'
        in visitor.get(f"/heads/{head_id}/head.toml").headers["Content-Disposition"]
    )


def test_a_head_with_parts_that_the_form_does_not_know_is_changed_as_a_file(visitor: TestClient) -> None:
    # A form lists the wheels whose detent stands on the bed first; their order in the file would be lost.
    toml = (
        BENCH_HEAD
        + '[[notched_wheels]]\nnotches = 24\ndetent_on = "worm"\n[[notched_wheels]]\nnotches = 60\n'
    )
    head_id = new_head(visitor, toml)
    page = visitor.get(f"/heads/{head_id}/edit").text
    assert "This head has parts that the form does not know" in page
    assert 'id="head-form"' not in page
    refused = visitor.post(f"/heads/{head_id}/edit", data={"as": "form", "name": "x", "notched_wheels": "12"})
    assert refused.status_code == 422
    assert "notches = 24" in visitor.get(f"/heads/{head_id}?json").json()["toml"]


FULL = """format = 1
name = "Full head"
[worm]
ratio = "45/2"
clockwise = "decreases"
[dial]
marks = 120
read_to = "1/2"
numbered_every = 5
vernier = 10
clockwise = "decreases"
settable = false
[ring]
graduations = 400
read_to = "1/4"
full_circle = 400
numbered = "anticlockwise"
[[plates]]
circles = [15, 18, 24]
[[plates]]
circles = [20]
[[notched_wheels]]
notches = 60
[[notched_wheels]]
notches = 48
detent_on = "worm"
[change_gears]
teeth = [24, 24, 28, 100]
module = "5/4"
shaft_clearance = 12
least_centres_mm = 30
greatest_centres_mm = "90.5"
idlers_with = [0, 1]
idlers_against = [1, 2]
cannot_drive_plate = "the spindle is tilted"
[stepper]
steps = 3200
per_turn_of = "spindle"
[errors]
worm_arcsec = [10, 60]
wheel_arcsec = "85.5"
dial_diameter_mm = 60
[[calibrations]]
date = "2025-10-01"
method = "closure"
in_force = true
table = [[0, 0], [90, 12], [180, "1/3"]]
readings = [[45, 5.5, 0], [90, 17, 45]]
[[calibrations]]
date = "2026-03-14"
reference = "index"
left_out = 2
residual_arcsec = 2.1
freedom = 27
backlash_arcsec = 241.5
harmonics = [
  { of = "wheel", order = 1, cosine_arcsec = 64.3, sine_arcsec = 46.8 },
  { of = "worm", order = 1, cosine_arcsec = -8.2, sine_arcsec = 18.1 },
]
covariance = [[0.3], [0, 0.3], [0, 0, 0.25], [0, 0, 0, 0.25]]
readings = [[0, 1.5], [3.5, 12.25, "back"]]
"""


def form_values(page: str) -> dict[str, str]:
    """Return what a browser would send of the form of a head."""
    form = page.split('id="head-form"')[1].split("</form>")[0]
    values = {
        name: unescape(value)
        for name, value in re.findall(r'<input[^>]* name="([^"]+)" value="([^"]*)"', form)
    }
    values |= {
        name: unescape(text.removeprefix("\n"))
        for name, text in re.findall(r'<textarea[^>]* name="([^"]+)"[^>]*>(.*?)</textarea>', form, re.DOTALL)
    }
    for name, options in re.findall(r'<select[^>]* name="([^"]+)"[^>]*>(.*?)</select>', form, re.DOTALL):
        values[name] = re.findall(r'value="([^"]*)" selected', options)[0]
    return values


def test_another_name_by_the_form_changes_nothing_else(visitor: TestClient) -> None:
    head_id = new_head(visitor, FULL)
    values = form_values(visitor.get(f"/heads/{head_id}/edit").text)
    assert values["name"] == "Full head"
    answer = visitor.post(f"/heads/{head_id}/edit", data=values | {"name": "Other head"})
    assert answer.status_code == 303, answer.text
    now = read_head(visitor.get(f"/heads/{head_id}/head.toml").content)
    assert now == replace(read_head(FULL), name="Other head")


def test_a_head_whose_measured_errors_would_not_fit_any_more_is_not_changed(visitor: TestClient) -> None:
    head_id = new_head(visitor, FULL)
    values = form_values(visitor.get(f"/heads/{head_id}/edit").text)
    bare = {name: value for name, value in values.items() if name.split(".")[0] in ("as", "name", "ring")}
    answer = visitor.post(f"/heads/{head_id}/edit", data=bare)
    assert answer.status_code == 422
    assert "calibrations[1]: errors of the worm, but there is no [worm]" in unescape(answer.text)
    assert read_head(visitor.get(f"/heads/{head_id}/head.toml").content) == read_head(FULL)


def test_a_head_that_is_only_a_drive_has_no_picture_and_still_its_pages(visitor: TestClient) -> None:
    head_id = new_head(visitor, 'name = "Drive"\n[worm]\nwheel_teeth = 72\n[stepper]\nsteps = 3200\n')
    for path in ("/heads", f"/heads/{head_id}", f"/heads/{head_id}/edit"):
        assert visitor.get(path).status_code == 200
