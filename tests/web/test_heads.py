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
    assert "dial.marks: &#39;ten&#39;; this is a whole number" in answer.text
    assert "plates[0].circles[2]: 1 hole; a hole circle has 2 or more" in answer.text
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
    assert "plates[0].circles[1]: 1 hole" in answer.text
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
    toml = BENCH_HEAD + "[errors]\nworm_arcsec = 30\n"
    head_id = new_head(visitor, toml)
    page = visitor.get(f"/heads/{head_id}/edit").text
    assert "This head has parts that the form does not know" in page
    assert 'id="head-form"' not in page
    refused = visitor.post(f"/heads/{head_id}/edit", data={"as": "form", "name": "x", "notched_wheels": "12"})
    assert refused.status_code == 422
    assert "[errors]" in visitor.get(f"/heads/{head_id}?json").json()["toml"]


def test_a_head_that_is_only_a_drive_has_no_picture_and_still_its_pages(visitor: TestClient) -> None:
    head_id = new_head(visitor, 'name = "Drive"\n[worm]\nwheel_teeth = 72\n[stepper]\nsteps = 3200\n')
    for path in ("/heads", f"/heads/{head_id}", f"/heads/{head_id}/edit"):
        assert visitor.get(path).status_code == 200
