"""How good a job's part will be, and cutting it in the computer first, as pages and for programs."""

import re
import sys
from html import unescape

import pytest
from starlette.testclient import TestClient

from tests.docs.test_json_page import TOLD, keys
from tests.gear import BENCH_HEAD, BULL_WHEEL, MILL_TABLE, PLATE_HEAD
from tests.web.asking import JSON, new_head, new_job


def new_spur(visitor: TestClient, head: str = PLATE_HEAD, **typed: str) -> int:
    form = {"head": str(new_head(visitor, head)), "teeth": "40", "module": "2"} | typed
    answer = visitor.post("/jobs/new/spur", data=form, headers=JSON)
    assert answer.status_code == 200, answer.text
    return int(answer.json()["id"])


def told(visitor: TestClient, address: str) -> str:
    """The words of a page, its marks taken out."""
    answer = visitor.get(address)
    assert answer.status_code == 200, answer.text
    body = answer.text.partition("<main")[2].partition("</main>")[0]
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", body)).split())


def test_three_figures_are_kept_apart_in_the_units_that_are_liked(visitor: TestClient) -> None:
    job = new_spur(visitor)
    page = told(visitor, f"/jobs/{job}/accuracy")
    way, head, part = (
        page.index(title) for title in ("The way's own rounding", "The head's own error", "The finished part")
    )
    assert way < head < part
    assert "Known exactly. Every position met exactly" in page
    assert "Unknown until it is measured; these are what typical sizes give." in page
    assert re.search(r"Single pitch ±[\d.]+ µm \([\d.]+ thou\) ±[\d.]+\"", page)
    visitor.post("/preferences", data={"length": "inch", "angle": "dms"})
    inches = told(visitor, f"/jobs/{job}/accuracy")
    assert re.search(r"Single pitch ±[\d.]+ thou \([\d.]+ µm\)", inches)
    assert "work off centre: 0.98 to 1.97 thou (0.025 to 0.05 mm)" in inches


def test_a_helical_gear_has_its_class_and_a_bevel_gear_is_told_why_it_has_none(visitor: TestClient) -> None:
    head = str(new_head(visitor, PLATE_HEAD))
    size = {"head": head, "teeth": "30", "module": "2"}
    jobs = {
        kind: visitor.post(f"/jobs/new/{kind}", data=size | typed, headers=JSON).json()["id"]
        for kind, typed in (("helical", {"helix": "30"}), ("bevel", {"mate": "40", "face": "12mm"}))
    }
    helical = told(visitor, f"/jobs/{jobs['helical']}/accuracy")
    assert re.search(r"Class \d+ by ISO 1328-1:2013, which 19 gears in 20 keep", helical)
    assert "The pitch of a helical gear is meant across its shaft, half-way along the face" in helical
    assert "No class is told" not in helical
    bevel = told(visitor, f"/jobs/{jobs['bevel']}/accuracy")
    assert "No class is told" in bevel
    assert "ISO 17485 (from memory" in bevel
    assert "19 gears in 20" not in bevel


def test_the_page_says_what_the_command_says(visitor: TestClient) -> None:
    job = new_spur(visitor)
    answer = visitor.get(f"/jobs/{job}/accuracy?json").json()
    page = told(visitor, f"/jobs/{job}/accuracy")
    assert answer["job"] == job
    assert f"Class {answer['class']} by ISO 1328-1:2013, which 19 gears in 20 keep" in page
    assert f"Cumulative pitch: class {answer['cumulative_pitch_class']}." in page
    assert f"±{answer['single_pitch_um']:.1f} µm" in page
    assert "recalled, not read" in page
    first = answer["advice"][0]
    assert (
        f"Centre the work to {first['size']} mm and class {answer['class']} becomes {first['class']}." in page
    )
    assert "A vernier to 10 seconds is resolution, not accuracy" in page
    assert answer["simulated"] is None


def test_a_ring_read_by_eye_is_told_of_the_dial_first(visitor: TestClient) -> None:
    job = new_job(visitor, new_head(visitor, BENCH_HEAD), count="60", rim="150mm", work="line")
    page = told(visitor, f"/jobs/{job}/accuracy")
    helps = page.index("What would help most")
    assert page.index("Divide another way (way: Dial, nearest reading) and the part comes to about") > helps
    assert visitor.get(f"/jobs/{job}/accuracy?json").json()["other_way"]["method"] == "dial"


def test_causes_are_drawn_and_stand_in_a_table_beside(visitor: TestClient) -> None:
    page = visitor.get(f"/jobs/{new_spur(visitor)}/accuracy").text
    chart = page.partition('class="cause-bars"')[2].partition("</svg>")[0]
    rows = re.findall(r'<tr><th scope="row">([^<]+)<span', page)
    assert rows[0] == "work off centre"
    drawn = re.findall(r'class="cause">([^<]+)<', chart)
    assert drawn == rows[: len(drawn)]
    assert "the largest is work off centre" in page
    assert page.count("<dt>To measure it</dt>") == len(rows)


def test_a_gear_outside_the_standard_is_warned_of(visitor: TestClient) -> None:
    page = told(visitor, f"/jobs/{new_spur(visitor, module='0.3')}/accuracy")
    assert "Beware: module 0.3 mm is outside ISO 1328-1:2013" in page


def test_lines_and_holes_have_spacing_and_place_and_no_class(visitor: TestClient) -> None:
    head = new_head(visitor, BENCH_HEAD)
    lines = told(visitor, f"/jobs/{new_job(visitor, head, count='59', rim='100mm', work='line')}/accuracy")
    assert "Spacing of neighbouring lines ±" in lines
    assert "Position of lines, turned to fit best ±" in lines
    assert "ISO 1328" not in lines
    holes = told(visitor, f"/jobs/{new_job(visitor, head, count='12', rim='100mm', work='hole')}/accuracy")
    assert "Position of holes, turned to fit best ±" in holes


def test_what_if_values_stay_in_the_address_and_in_the_form(visitor: TestClient) -> None:
    job = new_spur(visitor)
    asked = f"/jobs/{job}/accuracy?holding=arbor&worm=20&lock=1+to+2&tool=0.1thou&both_sides=1"
    answer = visitor.get(f"{asked}&json=1").json()
    sources = {source["name"]: source for source in answer["sources"]}
    assert (sources["worm"]["low"], sources["worm"]["from"]) == ("20", "asked")
    assert (sources["lock"]["low"], sources["lock"]["high"]) == ("1", "2")
    assert sources["tool"]["low"] == "0.00254"
    assert sources["work-off-centre"]["high"] == "0.005"
    assert "backlash" in sources
    page = visitor.get(asked).text
    assert 'value="1 to 2"' in page
    assert '<option value="arbor" selected>' in page
    assert "checked" in page
    link = unescape(re.findall(r'href="(/jobs/\d+/accuracy/cut[^"]*)"', page)[0])
    cut = visitor.get(f"{link}&json=1").json()
    assert cut["single_pitch_um"] == answer["single_pitch_um"]


def test_all_that_is_wrong_is_told_at_its_field_and_kept(visitor: TestClient) -> None:
    job = new_spur(visitor)
    answer = visitor.get(f"/jobs/{job}/accuracy?worm=much&lock=9..1&holding=arbor")
    assert answer.status_code == 422
    assert "2 sizes to mend" in answer.text
    assert "&#39;much&#39; is not a number" in answer.text
    assert "from 9 to 1; write the smaller one first" in answer.text
    assert 'value="much"' in answer.text
    refused = visitor.get(f"/jobs/{job}/accuracy?worm=much", headers=JSON)
    assert refused.status_code == 422
    assert refused.json()["error"]["faults"][0]["place"] == "worm"


def test_a_job_without_a_rim_is_asked_for_it(visitor: TestClient) -> None:
    job = new_job(visitor, new_head(visitor, BULL_WHEEL), count="12")
    address = f"/jobs/{job}/accuracy"
    assert "Diameter at which errors are told" in told(visitor, address)
    assert visitor.get(address, headers=JSON).status_code == 422
    assert visitor.get(f"{address}?rim=4in&json=1").json()["rim_mm"] == 101.6
    wrong = visitor.get(f"{address}?rim=large")
    assert wrong.status_code == 422
    assert 'value="large"' in wrong.text
    assert visitor.get(f"{address}/cut").status_code == 422
    assert visitor.get(f"{address}/cut?rim=4in").status_code == 200


def test_the_job_leads_to_both_pages(visitor: TestClient) -> None:
    job = new_spur(visitor)
    assert f'href="/jobs/{job}/accuracy"' in visitor.get(f"/jobs/{job}").text
    assert f'href="/jobs/{job}/accuracy/cut"' in visitor.get(f"/jobs/{job}/accuracy").text
    assert visitor.get("/jobs/99/accuracy").status_code == 404


def test_a_part_is_cut_by_its_seed(visitor: TestClient) -> None:
    address = f"/jobs/{new_spur(visitor)}/accuracy/cut"
    page = visitor.get(address).text
    assert "One part, seed 1" in page
    assert page.count('class="pitch-errors"') == 2
    assert page.count('class="deviation-spread"') == 2
    assert page.count('class="pitch wrong"') == 2
    first, again, other = (
        visitor.get(f"{address}?seed={seed}&json=1").json()["cut"]["errors_um"] for seed in (3, 3, 4)
    )
    assert first == again
    assert first != other
    assert len(first) == 40


def test_a_wrong_position_is_where_it_does_most_or_where_it_was_typed(visitor: TestClient) -> None:
    address = f"/jobs/{new_spur(visitor)}/accuracy/cut"
    answer = visitor.get(f"{address}?json=1").json()
    # One hole of the circle of 15 on a 40:1 head, at 80 mm.
    assert answer["wrong"]["too_far_um"] == pytest.approx(80_000 * 3.14159 / 40 / 15, rel=1e-5)
    most = max(map(abs, answer["wrong"]["pitches_um"]))
    for position in range(40):
        typed = visitor.get(f"{address}?json=1&wrong={position}&parts=100").json()["wrong"]
        assert typed["position"] == position
        assert max(map(abs, typed["pitches_um"])) <= most
    assert "Position 17 was set one hole too far: 419 µm" in told(visitor, f"{address}?wrong=17")


def test_many_parts_are_spread_and_agree_with_the_closed_form(visitor: TestClient) -> None:
    job = new_spur(visitor)
    answer = visitor.get(f"/jobs/{job}/accuracy/cut?seed=7&parts=5000&json=1").json()
    assert (answer["simulated"]["gears"], answer["simulated"]["seed"]) == (5000, 7)
    for spread in answer["spread"].values():
        assert sum(spread["counts"]) == 5000
    assert answer["simulated"]["cumulative_pitch_um"] == pytest.approx(
        answer["cumulative_pitch_um"], rel=0.05
    )
    page = told(visitor, f"/jobs/{job}/accuracy/cut?seed=7&parts=5000")
    assert "5,000 parts, from seed 7. 19 in 20 keep a single pitch of ±" in page
    assert "Worked out, with nothing cut: ±" in page


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("seed=x", "seed: 'x' is not a whole number"),
        ("seed=-1", "seed: -1; a seed is from 0 to"),
        ("wrong=40", "wrong position: 40; positions run from 0 to 39"),
        ("parts=5", "parts: 5; here from 100 to 500,000 of 40 positions each"),
        ("parts=9999999", "parts: 9,999,999; here from 100 to 500,000"),
    ],
)
def test_a_wrong_question_is_told_and_kept(visitor: TestClient, typed: str, sentence: str) -> None:
    answer = visitor.get(f"/jobs/{new_spur(visitor)}/accuracy/cut?{typed}")
    assert answer.status_code == 422
    assert sentence in unescape(answer.text)
    assert f'value="{typed.partition("=")[2]}"' in answer.text


def test_without_its_package_the_closed_form_stands_and_the_page_says_what_to_install(
    visitor: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    job = new_spur(visitor)
    monkeypatch.setitem(sys.modules, "numpy", None)
    page = told(visitor, f"/jobs/{job}/accuracy/cut")
    assert "pip install 'crankwise[accuracy]'" in page
    assert "Worked out, with nothing cut: ±" in page
    answer = visitor.get(f"/jobs/{job}/accuracy/cut?json=1").json()
    assert answer["simulated"] is None
    assert answer["cumulative_pitch_um"] > 0
    assert "Class" in told(visitor, f"/jobs/{job}/accuracy")


def test_work_along_a_line_is_refused_in_a_sentence(visitor: TestClient) -> None:
    head = new_head(visitor, MILL_TABLE)
    typed = {"head": str(head), "teeth": "60", "module": "1"}
    job = visitor.post("/jobs/new/rack", data=typed, headers=JSON).json()["id"]
    for address in (f"/jobs/{job}/accuracy", f"/jobs/{job}/accuracy/cut"):
        refused = visitor.get(address)
        assert refused.status_code == 422
        assert "along a" in refused.text
        assert "Diameter at which errors are told" not in refused.text


def test_more_positions_than_can_be_reckoned_are_refused(visitor: TestClient) -> None:
    job = new_job(visitor, new_head(visitor, BENCH_HEAD), count="7200", rim="500mm")
    answer = visitor.get(f"/jobs/{job}/accuracy")
    assert answer.status_code == 422
    assert "budget: 7,200 positions; at most 5,000 are reckoned through" in answer.text


def test_every_key_for_programs_is_told_in_the_docs(visitor: TestClient) -> None:
    job = new_spur(visitor)
    for address in (f"/jobs/{job}/accuracy", f"/jobs/{job}/accuracy/cut?parts=100"):
        assert sorted(set(keys(visitor.get(address, headers=JSON).json())) - TOLD) == []
