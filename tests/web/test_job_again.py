"""A part is changed by a new job whose form is filled in from the old one's."""

import re
from html import unescape

import pytest
from starlette.testclient import TestClient

from crankwise.web.part_forms import PART_FORMS
from tests.gear import BENCH_HEAD, PLATE_HEAD
from tests.web.asking import JSON, new_head, new_job
from tests.web.test_parts import ASKED, head_for, new_part

FIELD = re.compile(r'<input id="f-([\w.]+)" name="[\w.]+" value="([^"]*)"')
TICKED = re.compile(r'<input type="checkbox" name="(\w+)" value="true" checked>')
CHOSEN = re.compile(r'<select id="f-(\w+)".*?<option value="([^"]*)" selected', re.DOTALL)


def filled_in(page: str) -> dict[str, str]:
    found = dict(FIELD.findall(page)) | dict(CHOSEN.findall(page))
    return {name: unescape(text) for name, text in found.items() if text} | dict.fromkeys(
        TICKED.findall(page), "true"
    )


def again_of(visitor: TestClient, job_id: int) -> str:
    found = re.search(r'href="(/jobs/new[^"]*\?from=\d+)"', visitor.get(f"/jobs/{job_id}").text)
    assert found
    return found[1]


@pytest.mark.parametrize("kind", sorted(PART_FORMS))
def test_the_form_of_every_kind_is_filled_in_with_what_was_typed(visitor: TestClient, kind: str) -> None:
    within = "30um" if PART_FORMS[kind].along else "30arcsec"
    job_id = new_part(visitor, kind, new_head(visitor, head_for(kind)), **ASKED[kind], within=within)
    address = again_of(visitor, job_id)
    assert address == f"/jobs/new/{kind}?from={job_id}"
    page = visitor.get(address).text
    found = filled_in(page)
    assert {name: found.get(name) for name in ASKED[kind]} == ASKED[kind]
    assert found["within"] == within
    assert f'Filled in from <a href="/jobs/{job_id}">' in page


def test_bare_divisions_are_filled_in_too(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="127", rim="200mm", work="space")
    found = filled_in(visitor.get(again_of(visitor, job_id)).text)
    assert (found["count"], found["rim"], found["work"]) == ("127", "200mm", "space")


def test_the_head_that_it_was_divided_on_is_chosen(visitor: TestClient) -> None:
    new_head(visitor, BENCH_HEAD)
    second = new_head(visitor, PLATE_HEAD)
    job_id = new_part(visitor, "flats", second, **ASKED["flats"])
    assert filled_in(visitor.get(again_of(visitor, job_id)).text)["head"] == str(second)


def test_all_runs_of_a_part_are_made_again_and_not_one_alone(visitor: TestClient) -> None:
    typed = {"head": str(new_head(visitor, PLATE_HEAD)), "size": "6x23x26"}
    job_ids = visitor.post("/jobs/new/splines", data=typed, headers=JSON).json()["job_ids"]
    assert len(job_ids) == 2
    found = filled_in(visitor.get(again_of(visitor, job_ids[1])).text)
    assert found["size"] == "6x23x26"
    assert "which" not in found


@pytest.mark.parametrize("number", ["77", "x", "9" * 40])
def test_a_job_that_is_not_there_is_refused(visitor: TestClient, number: str) -> None:
    assert visitor.get(f"/jobs/new/spur?from={number}").status_code == 404
