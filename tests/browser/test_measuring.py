"""A head is measured, kept and corrected for as a person would do it, at both sizes and without script."""

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Opened
from tests.browser.serving import Server
from tests.gear import BENCH_HEAD
from tests.house.tracked import HOUSE

pytestmark = pytest.mark.browser

READINGS = HOUSE / "examples/bench-readings.csv"


def take_in_a_head(page: Page, server: Server) -> None:
    page.goto(f"{server.address}/heads/import")
    page.get_by_label("or paste its text").fill(BENCH_HEAD)
    page.get_by_role("button", name="Take it in").click()
    expect(page.get_by_text("Never measured")).to_be_visible()


def plan_it(page: Page) -> list[str]:
    """Plan there and back, and return the lines of the file to fill in."""
    page.get_by_role("link", name="Plan a measurement").click()
    page.get_by_label("And all the way back again").check()
    page.get_by_role("button", name="Show the plan").click()
    expect(page.locator(".to-fill tbody tr")).to_have_count(72)
    with page.expect_download() as waited:
        page.get_by_role("link", name="A file to fill in").click()
    assert waited.value.suggested_filename == "bench-head-index.csv"
    return Path(waited.value.path()).read_text(encoding="utf-8").splitlines()


def bring_and_keep(page: Page) -> None:
    page.get_by_role("link", name="Bring readings").click()
    page.get_by_label("Choose the file").set_input_files(READINGS)
    page.get_by_label("Measured on").fill("2026-03-14")
    page.get_by_label("Measured with").select_option("index")
    page.get_by_role("button", name="Show what they tell").click()
    expect(page.get_by_text("72 readings scatter")).to_be_visible()
    page.get_by_role("button", name="Keep this calibration").click()
    expect(page.get_by_role("heading", name="Measured on 2026-03-14 in force")).to_be_visible()


def correct_a_job(page: Page) -> None:
    page.get_by_role("link", name="New job on this head").click()
    page.get_by_label("Number of parts").fill("127")
    page.get_by_role("button", name="Show the ways").click()
    page.get_by_role("link", name="Corrected for the head").click()
    page.get_by_role("button", name="Choose Dial").click()
    expect(page.get_by_text('the worst position was 185.1" out and is 45.3" out')).to_be_visible()
    page.get_by_role("button", name="Begin a run").click()
    expect(page.get_by_text("every zero must be the one that the head was measured from")).to_be_visible()


@pytest.mark.parametrize("script", [True, False], ids=["script", "no-script"])
def test_measure_a_head_keep_it_and_correct_a_job(
    server: Server, opened: Opened, size: dict[str, int], script: bool
) -> None:
    page = opened(size, script=script)
    take_in_a_head(page, server)
    planned = plan_it(page)
    assert planned[0] == "setting_deg,measured_deg,direction"
    assert len(planned) == 73
    page.get_by_role("link", name="Bench head").first.click()
    bring_and_keep(page)
    correct_a_job(page)


def test_centring_says_which_screw_goes_in(server: Server, opened: Opened, size: dict[str, int]) -> None:
    page = opened(size, script=False, expected="422")
    page.goto(f"{server.address}/centring")
    page.get_by_label("Angle and reading").fill("0:0.00\n90:0.03\n180:0.05")
    page.get_by_label("Screws or jaws at").fill("0, here")
    page.get_by_role("button", name="Show how to move it").click()
    expect(page.get_by_role("alert")).to_contain_text("here")
    page.get_by_label("Screws or jaws at").fill("0, 120, 240")
    page.get_by_role("button", name="Show how to move it").click()
    expect(page.locator("svg.centring polygon")).to_have_count(4)
    expect(page.get_by_role("img", name="it is moved towards")).to_be_visible()


def test_a_calibration_is_dropped_by_no_one_tap(server: Server, opened: Opened, size: dict[str, int]) -> None:
    """The button does nothing before the tick; the file that is handed out has what is dropped."""
    page = opened(size)
    take_in_a_head(page, server)
    bring_and_keep(page)
    page.get_by_text("Drop the calibration of 2026-03-14", exact=True).click()
    drop = page.get_by_role("button", name="Drop it")
    drop.click()
    expect(page.get_by_role("heading", name="Measured on 2026-03-14 in force")).to_be_visible()
    with page.expect_download() as waited:
        page.get_by_role("link", name="Keep the head file (TOML)").click()
    assert "[[calibrations]]" in Path(waited.value.path()).read_text(encoding="utf-8")
    page.get_by_label("I have the file, or want none of it back").check()
    drop.click()
    expect(page.get_by_text("Never measured")).to_be_visible()
