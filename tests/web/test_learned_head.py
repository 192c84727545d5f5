"""Where the sizes of a head are from goes through its form, as long as a size stays what it was."""

import re
from random import Random

from starlette.testclient import TestClient

from crankwise.files.head_toml import read_head
from crankwise.web.head_fields import filled_fields, form_holds
from tests.accuracy.made_parts import Hidden, made_part, plan_of
from tests.gear import BENCH_HEAD
from tests.web.asking import JSON, new_head, new_job, new_run

LEARNED = (
    BENCH_HEAD
    + "\n[errors]\nworm_arcsec = [20, 24]\nlock_arcsec = 4\n"
    + '\n[errors.from]\nworm_arcsec = "5 parts"\nlock_arcsec = "x"\n'
)


def test_the_form_keeps_where_a_size_is_from(visitor: TestClient) -> None:
    head_id = new_head(visitor, LEARNED)
    head = read_head(LEARNED)
    assert form_holds(head)
    fields = filled_fields(head) | {"errors.lock_arcsec": "5"}
    now = visitor.post(f"/heads/{head_id}/edit", data=fields, headers=JSON).json()
    sizes = read_head(now["toml"]).error_sizes
    assert sizes is not None
    assert sizes.sources == (("worm_arcsec", "5 parts"),)


def with_measured_parts(visitor: TestClient, count: int) -> tuple[int, list[int]]:
    """A head, and kept measurements of so many parts cut on it in the computer."""
    head_id = new_head(visitor, BENCH_HEAD)
    kept = []
    for number, teeth in enumerate((97, 60, 127, 103, 59)[:count]):
        job_id = new_job(visitor, head_id, count=str(teeth), rim="100mm", work="space")
        part = made_part(
            Hidden(wheel=30, worm=20, off_centre=0.01, scatter=8), plan_of(teeth), Random(number)
        )
        readings = "\n".join(f"{pitch:.2f}" for pitch in part.part.single)
        sent = {"what": "pitch", "readings": readings, "do": "keep", "date": f"2026-03-{number + 1:02}"}
        kept.append(visitor.post(f"/jobs/{job_id}/measure", data=sent, headers=JSON).json()["id"])
    return head_id, kept


def test_few_parts_are_refused_with_the_rule(visitor: TestClient) -> None:
    head_id, _ = with_measured_parts(visitor, 0)
    assert "No measured part of this head is kept yet" in visitor.get(f"/heads/{head_id}/parts").text
    head_id, _ = with_measured_parts(visitor, 2)
    page = visitor.get(f"/heads/{head_id}/parts").text
    assert "2 parts to learn from; measure 1 more. Fewer than 3 parts tell nothing of a head" in page
    assert "take-" not in page
    assert f'href="/heads/{head_id}/parts"' in visitor.get(f"/heads/{head_id}").text


def test_only_what_is_ticked_is_taken_over(visitor: TestClient) -> None:
    head_id, kept = with_measured_parts(visitor, 5)
    address = f"/heads/{head_id}/parts"
    page = visitor.get(address).text
    assert "The parts show " in page
    assert "Taken as typical 10 to 60" in page
    assert re.search("Taken as typical [0-9.]+(″|&#34;) in all[.]", page)
    assert "one figure and no range: what the sizes of all these make together" in page
    mark = visitor.get(f"{address}?json").json()["mark"]
    ticked = {f"m{number}": "1" for number in kept}
    nothing = visitor.post(address, data=ticked | {"mark": mark})
    assert nothing.status_code == 422
    assert "take: nothing was chosen" in nothing.text
    stale = visitor.post(address, data=ticked | {"mark": "of yesterday", "take-worm": "1"})
    assert stale.status_code == 422
    assert "have changed since this was shown" in stale.text
    assert 'name="take-worm" value="1" checked' in stale.text
    run_id = new_run(visitor, 1)
    before = visitor.get(f"/runs/{run_id}.json").json()
    answer = visitor.post(address, data=ticked | {"mark": mark, "take-worm": "1"})
    assert answer.headers["Location"] == f"/heads/{head_id}"
    sizes = read_head(visitor.get(f"/heads/{head_id}?json").json()["toml"]).error_sizes
    assert sizes is not None
    assert sizes.sources == (("worm_arcsec", "5 measured parts, 2026-03-01 to 2026-03-05"),)
    assert [name for name, _ in sizes.sizes] == ["worm_arcsec"]
    assert visitor.get(f"/runs/{run_id}.json").json() == before
    assert "Head file says " in visitor.get(address).text


def test_some_of_the_parts_may_be_left_out_by_hand(visitor: TestClient) -> None:
    head_id, kept = with_measured_parts(visitor, 5)
    some = "&".join(f"m{number}=1" for number in kept[:4])
    assert visitor.get(f"/heads/{head_id}/parts?json").json()["parts"] == 5
    assert visitor.get(f"/heads/{head_id}/parts?{some}&json").json()["parts"] == 4
    page = visitor.get(f"/heads/{head_id}/parts?{some}").text
    assert f'name="m{kept[4]}" value="1">' in page


def again(visitor: TestClient, kept: int, **typed: str) -> int:
    """Keep the first part's readings once more, a little otherwise, as it would be measured again."""
    readings = visitor.get(f"/jobs/1/measured/{kept}?json").json()["readings"].splitlines()
    readings[3] = f"{float(readings[3]) + 1:.2f}"
    sent = {"what": "pitch", "readings": "\n".join(readings), "do": "keep", "date": "2026-04-01"} | typed
    number: int = visitor.post("/jobs/1/measure", data=sent, headers=JSON).json()["id"]
    return number


def test_of_one_run_only_the_last_measurement_counts(visitor: TestClient) -> None:
    head_id, kept = with_measured_parts(visitor, 4)
    run_id = new_run(visitor, 1)
    again(visitor, kept[0], run=str(run_id))
    last = again(visitor, kept[0], run=str(run_id), date="2026-04-02")
    found = visitor.get(f"/heads/{head_id}/parts?json").json()
    assert (found["parts"], found["measurements"]) == (4, 4)
    page = visitor.get(f"/heads/{head_id}/parts").text
    assert "4 parts, 4 measurements." in page
    assert "the same part as measured on 2026-04-02, which counts" in page
    assert f'name="m{last}" value="1" checked' in page
    assert "it says neither piece nor run" in page


def test_a_part_measured_again_counts_once_and_its_piece_can_be_said_later(visitor: TestClient) -> None:
    head_id, kept = with_measured_parts(visitor, 4)
    second = again(visitor, kept[0])
    address = f"/heads/{head_id}/parts"
    assert visitor.get(f"{address}?json").json()["parts"] == 4
    for number, piece in ((kept[0], "1"), (second, "2")):
        said = visitor.post(f"/jobs/1/measured/{number}/piece", data={"piece": piece}, headers=JSON).json()
        assert said["piece"] == piece
    assert visitor.get(f"{address}?json").json()["parts"] == 5
    visitor.post(f"/jobs/1/measured/{second}/piece", data={"piece": "1"})
    both = "&".join(f"m{number}=1" for number in [*kept, second])
    found = visitor.get(f"{address}?{both}&json").json()
    assert (found["parts"], found["measurements"]) == (4, 5)
    assert "piece <bdi>1</bdi>" in visitor.get(f"/jobs/1/measured/{second}").text
    long = visitor.post(f"/jobs/1/measured/{second}/piece", data={"piece": "x" * 41})
    assert long.status_code == 422
    assert "41 characters; a number or a short mark, 40 at most" in long.text


def test_several_of_one_job_that_are_not_told_apart_count_as_one(visitor: TestClient) -> None:
    head_id, kept = with_measured_parts(visitor, 1)
    for number in range(3):
        again(visitor, kept[0], date=f"2026-05-0{number + 1}")
    page = visitor.get(f"/heads/{head_id}/parts").text
    assert "1 part to learn from; measure 2 more." in page
    assert "the same part as measured on 2026-05-03, which counts" in page
    assert "where neither was said, all of one job count as one part" in page
