"""A finished part is measured on its page, kept with its run, and its report handed out."""

from fractions import Fraction
from io import BytesIO
from math import pi, sin
from random import Random

import pytest
from pypdf import PdfReader
from starlette.testclient import TestClient

from crankwise.tasks.kept_parts import TypedMeasurement
from tests.gear import BENCH_HEAD
from tests.web.asking import JSON, new_head, new_job, new_run
from tests.web.test_run_json import send, taps

COUNT = 12


def a_job(visitor: TestClient, **typed: str) -> int:
    asked = {"count": str(COUNT), "rim": "100mm", "work": "space"} | typed
    return new_job(visitor, new_head(visitor, BENCH_HEAD), **asked)


def angles(off: dict[int, float] | None = None) -> dict[str, str]:
    """The fields of measured angles, some of them out by so many degrees, with decimal commas."""
    shift = off or {}
    return {f"r{k}": f"{30 * k + 7 + shift.get(k, 0):.4f}".replace(".", ",") for k in range(COUNT)}


def form(what: str, **more: str) -> dict[str, str]:
    return {"what": what, "do": "look", **more}


def test_the_page_asks_for_each_position(visitor: TestClient) -> None:
    job_id = a_job(visitor)
    page = visitor.get(f"/jobs/{job_id}").text
    assert f'href="/jobs/{job_id}/measure"' in page
    page = visitor.get(f"/jobs/{job_id}/measure").text
    assert page.count('<input id="f-r') == COUNT
    asks = visitor.get(f"/jobs/{job_id}/measure?json").json()["asks"]
    assert [ask["what"] for ask in asks] == ["position", "pitch", "size"]
    assert asks[0]["readings"] == COUNT
    assert 'placeholder="150mm"' not in page


def test_what_was_measured_is_held_against_its_prediction(visitor: TestClient) -> None:
    job_id = a_job(visitor)
    address = f"/jobs/{job_id}/measure"
    page = visitor.post(address, data=form("position", **angles({5: 0.004})))
    assert page.status_code == 200
    assert ">As predicted<" in page.text
    assert "pitch-errors" in page.text
    assert 'value="157,0040"' in page.text
    found = visitor.post(address, data=form("position", **angles({5: 0.004})), headers=JSON).json()
    out = 0.004 / 360 * pi * 100_000
    assert found["single_pitch_um"] == pytest.approx(out)
    assert found["predicted"]["kept"] is True
    page = visitor.post(address, data=form("position", **angles({5: 0.5})))
    assert ">Beyond its prediction<" in page.text
    assert "times what 19 parts in 20 keep" in page.text
    assert visitor.get(f"/jobs/{job_id}?json").json()["measurements"] == []


def test_a_finished_run_leads_on_to_its_measurement_its_report_and_its_head(visitor: TestClient) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    job_id = new_job(visitor, head_id, count=str(COUNT), rim="100mm", work="space")
    new_run(visitor, job_id)
    run_id = new_run(visitor, job_id)
    send(visitor, run_id, taps=taps(COUNT + 1), seen=1)
    finished = visitor.get(f"/runs/{run_id}").text
    measuring = f"/jobs/{job_id}/measure?run={run_id}"
    assert f'href="{measuring}">Measure this part<' in finished
    assert f'href="/heads/{head_id}/parts"' in finished
    page = visitor.get(measuring).text
    assert f'<a href="/runs/{run_id}">run 2</a>' in page
    assert f'<option value="{run_id}" selected>run 2</option>' in page
    assert f'href="{measuring.replace("?", "?what=pitch&amp;")}"' in page
    sent = form("position", **angles(), date="2026-03-14", run=str(run_id), piece="2<b>")
    refused = visitor.post(f"/jobs/{job_id}/measure", data=sent | {"date": "soon"})
    assert refused.status_code == 422
    assert f'<a href="/runs/{run_id}">run 2</a>' in refused.text
    kept = visitor.post(f"/jobs/{job_id}/measure", data=sent | {"do": "keep"}).headers["Location"]
    finished = visitor.get(f"/runs/{run_id}").text
    assert "Measured 2026-03-14, piece <bdi>2&lt;b&gt;</bdi>" in finished
    assert f'href="{kept}"' in finished
    assert f'href="{kept}/report.pdf"' in finished
    assert f'href="{measuring}">Measure it again<' in finished


@pytest.mark.parametrize("run", ["999", "mine", "1"])
def test_a_run_that_is_not_of_the_job_is_told(visitor: TestClient, run: str) -> None:
    other = new_run(visitor, a_job(visitor))
    job_id = a_job(visitor)
    answer = visitor.get(f"/jobs/{job_id}/measure?run={other if run == '1' else run}")
    assert 400 <= answer.status_code < 500
    assert "is no run of this job" in answer.text


def test_a_measurement_is_kept_with_its_run(visitor: TestClient) -> None:
    job_id = a_job(visitor)
    run_id = new_run(visitor, job_id)
    sent = form("position", **angles(), date="2026-03-14", run=str(run_id), note="<b>brass</b>") | {
        "do": "keep"
    }
    answer = visitor.post(f"/jobs/{job_id}/measure", data=sent)
    assert answer.status_code == 303
    address = answer.headers["Location"]
    page = visitor.get(address).text
    assert "&lt;b&gt;brass" in page
    assert f'href="/runs/{run_id}"' in page
    listed = visitor.get(f"/jobs/{job_id}").text
    assert f'href="{address}"' in listed
    assert "2026-03-14" in listed
    kept = visitor.get(f"{address}?json").json()
    assert (kept["date"], kept["run_id"], kept["column"]) == ("2026-03-14", run_id, "position_deg")
    assert kept["readings"].splitlines()[1] == "37,0000"
    report = visitor.get(f"{address}/report.pdf")
    assert report.headers["Content-Type"] == "application/pdf"
    words = " ".join(PdfReader(BytesIO(report.content)).pages[0].extract_text().split())
    for told in ("2026-03-14", "<b>brass</b>", "Run 1", "as predicted"):
        assert told in words
    assert visitor.post(f"{address}/drop").headers["Location"] == f"/jobs/{job_id}"
    assert visitor.get(address).status_code == 404
    assert visitor.get(f"/jobs/{job_id}?json").json()["measurements"] == []


def test_the_report_of_what_is_not_kept_yet(visitor: TestClient) -> None:
    job_id = a_job(visitor)
    sent = form("position", **angles(), paper="letter") | {"do": "report"}
    report = visitor.post(f"/jobs/{job_id}/measure", data=sent)
    (page,) = PdfReader(BytesIO(report.content)).pages
    assert float(page.mediabox.width) == 612


@pytest.mark.parametrize(
    ("sent", "told"),
    [
        (form("position"), "none typed; write what was measured"),
        (form("position", r3="90"), "missing; every one is needed"),
        (form("position", **(angles() | {"r4": "twelve"})), "&#39;twelve&#39;; write an angle in degrees"),
        (form("position", **angles(), readings="1"), "typed in the fields and pasted or sent too"),
        (form("position", **(angles({7: 29}))), "more than half-way to the next"),
        (form("position", readings="1\n2\n3"), "3 readings, and the part has 12 positions"),
        (form("position", **angles(), date="tomorrow"), "date: &#39;tomorrow&#39; is no day"),
        (form("position", **angles(), run="99"), "run: &#39;99&#39; is no run of this job"),
        (form("position", **angles(), pins="3mm"), "pins: distances of holes are measured over pins"),
        (form("position", **angles(), note="x" * 1001), "note: 1,001 characters; 1,000 at most"),
        (form("size", r0="12", wanted="big"), "wanted: &#39;big&#39; is not a length"),
        (form("pitch", readings="a,b\n1"), "the columns a, b; one of them is pitch_um"),
    ],
)
def test_what_is_wrong_is_told_and_the_form_stays_filled(
    visitor: TestClient, sent: dict[str, str], told: str
) -> None:
    job_id = a_job(visitor)
    for do in ("look", "keep", "report"):
        answer = visitor.post(f"/jobs/{job_id}/measure", data=sent | {"do": do})
        assert answer.status_code == 422, do
        assert told in answer.text
        for name in sent.keys() & {"r0", "r3", "r4", "wanted"}:
            assert f'value="{sent[name]}"' in answer.text
    as_json = visitor.post(f"/jobs/{job_id}/measure", data=sent, headers=JSON)
    assert as_json.status_code == 422
    assert as_json.json()["error"]["faults"]
    assert visitor.get(f"/jobs/{job_id}?json").json()["measurements"] == []


def test_holes_by_their_chords_over_pins_in_inches(visitor: TestClient) -> None:
    job_id = a_job(visitor, work="hole", rim="")
    chord = 4 * sin(pi / COUNT) + 0.125
    sent = {f"r{k}": f"{chord:.4f}" for k in range(COUNT)}
    answer = visitor.post(
        f"/jobs/{job_id}/measure",
        data=form("chord", unit="chord_in", pins="1/8 in", rim="", **sent),
        headers=JSON,
    ).json()
    assert answer["circle_mm"] == pytest.approx(101.6, abs=0.02)
    bare = {f"r{k}": f"{4 * sin(pi / COUNT):.4f}" for k in range(COUNT)}
    mixed = visitor.post(f"/jobs/{job_id}/measure", data=form("chord", rim="101.6mm", **bare))
    assert mixed.status_code == 422
    assert "these look like inches; name the column chord_in" in mixed.text


def test_a_gear_with_many_teeth_is_pasted_or_sent(visitor: TestClient) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    made = visitor.post(
        "/jobs/new/spur", data={"head": str(head_id), "teeth": "127", "module": "1"}, headers=JSON
    )
    job_id = made.json()["id"]
    page = visitor.get(f"/jobs/{job_id}/measure").text
    assert '<input id="f-r' not in page
    assert "span over 15 teeth" in page.lower()
    chance = Random(3)
    places = [chance.gauss(0, 4) for _ in range(127)]
    pitches = [f"{b - a:.1f}" for a, b in zip(places, [*places[1:], places[0]], strict=True)]
    address = f"/jobs/{job_id}/measure"
    pasted = visitor.post(address, data=form("pitch", readings="\n".join(pitches)), headers=JSON).json()
    assert pasted["class"] is not None
    file = ("wheel.csv", "pitch_um\n" + "\n".join(pitches), "text/csv")
    sent = visitor.post(address, data=form("pitch"), files={"file": file}, headers=JSON).json()
    assert sent == pasted
    page = visitor.post(address, data=form("pitch"), files={"file": file}).text
    assert "pitch_um\n" in page
    binary = visitor.post(address, data=form("pitch"), files={"file": ("w.xls", b"\xff\xd8\x00", "x/y")})
    assert binary.status_code == 422
    assert "this is not UTF-8 text" in binary.text
    size = next(
        ask["what"]
        for ask in visitor.get(f"{address}?json").json()["asks"]
        if ask["of"] == "span over 15 teeth"
    )
    spans = visitor.post(address, data=form(size, r0="44.57", r2="44,60"), headers=JSON).json()
    assert spans["beyond"] == [2]
    assert Fraction(spans["mean_mm"]) == Fraction("44.585")


def test_a_form_that_was_sent_twice_keeps_it_once(visitor: TestClient) -> None:
    job_id = a_job(visitor)
    sent = form("position", **angles(), date="2026-03-14") | {"do": "keep"}
    first, second = (visitor.post(f"/jobs/{job_id}/measure", data=sent).headers["Location"] for _ in range(2))
    assert first == second
    another = visitor.post(f"/jobs/{job_id}/measure", data=sent | {"note": "again"}).headers["Location"]
    assert another != first


def test_what_cannot_be_followed_any_more_can_still_be_dropped(visitor: TestClient) -> None:
    job_id = a_job(visitor)
    workshop = visitor.app.state.workshop  # type: ignore[attr-defined]
    kept = workshop.keep_measurement(
        job_id, TypedMeasurement("size_mm", "12", of="span over 99"), "2026-03-14"
    )
    address = f"/jobs/{job_id}/measured/{kept.id}"
    page = visitor.get(address)
    assert page.status_code == 404
    assert "cannot be followed any more" in page.text
    assert "is not on the measuring card" in page.text
    assert visitor.post(f"{address}/drop").status_code == 303


def test_a_measurement_of_another_job_is_not_here(visitor: TestClient) -> None:
    job_id, other = a_job(visitor), a_job(visitor)
    kept = visitor.post(
        f"/jobs/{job_id}/measure", data=form("position", **angles()) | {"do": "keep"}, headers=JSON
    ).json()
    assert visitor.get(f"/jobs/{job_id}/measured/{kept['id']}").status_code == 200
    assert visitor.get(f"/jobs/{other}/measured/{kept['id']}").status_code == 404
    assert visitor.post(f"/jobs/{other}/measured/{kept['id']}/drop").status_code == 404
    assert visitor.get(f"/jobs/{job_id}/measured/77/report.pdf").status_code == 404


def test_inches_go_first_where_they_are_read_first(visitor: TestClient) -> None:
    job_id = a_job(visitor)
    visitor.post("/preferences", data={"length": "inch", "angle": "decimal"})
    page = visitor.post(f"/jobs/{job_id}/measure", data=form("position", **angles({5: 0.004})))
    assert "is 0.14 thou (3.5 µm)." in page.text


def test_the_position_set_wrongly_stands_out_in_the_picture(visitor: TestClient) -> None:
    job_id = a_job(visitor)
    page = visitor.post(
        f"/jobs/{job_id}/measure",
        data=form("position", **angles({k: 0.002 * (k % 3) for k in range(12)} | {5: 0.4})),
    )
    assert "position 5 alone is" in page.text
    assert 'class="pitch wrong"' in page.text
