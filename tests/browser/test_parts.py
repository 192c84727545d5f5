"""A gear and a graduated ring made on a phone: asked, their cards read, taken in and handed out, begun."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from crankwise.files.job_toml import read_job
from tests.browser.conftest import DESK, PHONE, Opened
from tests.browser.looks import misfits
from tests.browser.serving import Server

pytestmark = pytest.mark.browser


def asks(page: Page, server: Server, kind: str) -> None:
    """Come to the form of a kind from the workbench, as a person does."""
    page.goto(server.address)
    page.get_by_role("link", name="New job").click()
    link = page.get_by_role("link", name=kind, exact=True)
    if not link.is_visible():
        page.get_by_text("More kinds").click()
    link.click()
    expect(page.get_by_role("heading", name=kind)).to_be_visible()


def keep(page: Page) -> None:
    page.get_by_role("button", name="Show the cards and the ways").click()
    page.wait_for_url(re.compile(r"/jobs/\d+$"))


def test_a_gear_is_made_on_a_phone(server: Server, opened: Opened, tmp_path: Path) -> None:
    page = opened(PHONE)
    asks(page, server, "Spur gear")
    assert misfits(page) == []
    page.get_by_label("Teeth", exact=True).fill("127")
    page.get_by_label("Module", exact=True).fill("1")
    page.get_by_text("Tolerance, rim, name").click()
    page.get_by_label("Within").fill("25um")
    keep(page)
    expect(page.get_by_role("heading", level=1)).to_have_text("Spur gear, 127 teeth, module 1, 20°")
    expect(page.get_by_text("129.000 mm (5.0787 in)").first).to_be_visible()
    page.get_by_text("Measuring", exact=True).click()
    expect(page.get_by_text("span over 15 teeth")).to_be_visible()
    assert misfits(page) == []
    with page.expect_download() as kept:
        page.get_by_role("link", name="This job as a file").click()
    kept.value.save_as(tmp_path / "wheel.toml")
    assert read_job((tmp_path / "wheel.toml").read_bytes()).within == "25um"
    page.goto(f"{server.address}/jobs/import")
    page.get_by_label("Choose a job file").set_input_files(tmp_path / "wheel.toml")
    page.get_by_role("button", name="Take it in").click()
    expect(page.get_by_text("129.000 mm (5.0787 in)").first).to_be_visible()


def test_a_ring_is_made_on_a_phone_and_its_numerals_are_told_at_the_machine(
    server: Server, opened: Opened
) -> None:
    page = opened(PHONE)
    asks(page, server, "Dial, ring or scale")
    assert misfits(page) == []
    page.get_by_label("Diameter of the reading edge").fill("150mm")
    page.get_by_label("Room for lines").fill("14mm")
    page.get_by_label("Classes of lines").fill("1=3mm, 6=4.5mm, 12=6.5mm")
    page.get_by_text("Dial of a screw, hour ring").click()
    page.get_by_label("Time of one turn").fill("12h25m")
    page.get_by_label("What a line is worth").fill("5m")
    page.get_by_text("Numerals", exact=True).click()
    page.get_by_label("Height of figures").fill("2.4mm")
    keep(page)
    expect(page.get_by_text("the work must turn", exact=False).first).to_be_visible()
    expect(page.get_by_text("stop piece for short lines")).to_be_visible()
    assert misfits(page) == []
    page.get_by_role("link", name="Run sheet").click()
    expect(page.locator("td.mark", has_text="long line, numeral 1").first).to_be_visible()
    assert misfits(page) == []
    page.go_back()
    page.get_by_role("button", name="Begin a run").click()
    page.wait_for_url("**/runs/*")
    page.locator(".answers button.strong").click()
    expect(page.locator("main")).to_contain_text("long line")


def test_nonsense_is_told_at_its_field(server: Server, opened: Opened) -> None:
    page = opened(PHONE, expected="422")
    page.goto(f"{server.address}/jobs/new/spur")
    page.get_by_label("Teeth", exact=True).fill("3")
    page.get_by_label("Module", exact=True).fill("-1")
    page.get_by_text("Pressure angle, proportions").click()
    page.get_by_label("Pressure angle", exact=True).fill("60")
    page.get_by_role("button", name="Show the cards").click()
    alert = page.get_by_role("alert")
    expect(alert).to_contain_text("3 things to mend; nothing was kept yet.")
    expect(alert).to_contain_text("pressure angle: 60 degrees; from 10 to 35 degrees")
    # What is wrong is unfolded, and still as it was typed.
    expect(page.get_by_label("Pressure angle", exact=True)).to_be_visible()
    expect(page.get_by_label("Pressure angle", exact=True)).to_have_value("60")
    expect(page.get_by_label("Teeth", exact=True)).to_have_attribute("aria-invalid", "true")
    assert misfits(page) == []


def test_the_forms_work_without_script(server: Server, opened: Opened) -> None:
    page = opened(PHONE, script=False)
    page.goto(f"{server.address}/jobs/new/holes")
    page.get_by_label("Holes all round").fill("7")
    page.get_by_label("Diameter of the circle").fill("60mm")
    keep(page)
    expect(page.get_by_text("Coordinates")).to_be_visible()


@pytest.mark.parametrize(
    "path", ["/jobs/new/graduated", "/jobs/new/helical", "/jobs/new/holes", "/jobs/import"]
)
def test_every_form_fits_with_all_of_it_unfolded(demo_server: Server, opened: Opened, path: str) -> None:
    for size, scheme in ((PHONE, "light"), (PHONE, "dark"), (DESK, "light")):
        page = opened(size, scheme=scheme)
        page.goto(demo_server.address + path)
        page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
        assert misfits(page) == []
