"""At the machine, beyond Done and Back: checks, faults, slips, breaks and passes, as an operator taps them."""

from fractions import Fraction

import pytest
from playwright.sync_api import Page, expect

from crankwise.exact.number import as_text
from tests.browser.conftest import DESK, Opened
from tests.browser.doing import done, position, press, settled
from tests.browser.runs import begun, checks, send, send_checked, told, whole_row
from tests.browser.serving import Server

pytestmark = pytest.mark.browser

ODD = "<script>alert(1)</script> \N{WRENCH} بعد"


def at(page: Page, server: Server, run: str, path: str = "") -> Page:
    page.goto(f"{server.address}{run}{path}")
    settled(page)
    return page


def first_check(server: Server) -> tuple[int, str]:
    """Return the first row at which the ring is asked for, and what the page says that it should show."""
    row = checks(server)[0]
    return int(row["row"]), row["ring"].rstrip("°")


def more(page: Page, button: str, **typed: str) -> None:
    page.locator(".more-menu > summary").click()
    for field, words in typed.items():
        page.locator(f"#{field.replace('_', '-')}").fill(words)
    page.get_by_role("button", name=button, exact=True).click()


def read(page: Page, **scales: str) -> None:
    """Type what the scales show on the page Where am I?, and ask."""
    for name, value in scales.items():
        page.get_by_label(f"The {name} shows").fill(value)
    page.get_by_role("button", name="Where am I?").click()


def test_a_check_is_confirmed_and_then_the_work_goes_on(
    server: Server, opened: Opened, size: dict[str, int]
) -> None:
    row, ring = first_check(server)
    page = at(opened(size), server, begun(server, row))
    expect(
        page.locator("#panel .large", has_text=f"Read the ring before you work: it should show {ring}.")
    ).to_be_visible()
    expect(page.locator("#done")).to_have_count(0)
    page.get_by_role("button", name=f"Yes, {ring}").click()
    expect(page.locator("#done")).to_be_visible()
    done(page)
    assert position(page) == str(row + 1)


def test_a_double_touch_on_the_answer_of_a_check_does_no_work(server: Server, opened: Opened) -> None:
    row, ring = first_check(server)
    page = at(opened(), server, begun(server, row))
    button = page.get_by_role("button", name=f"Yes, {ring}")
    box = button.bounding_box()
    assert box is not None
    button.click()
    page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    expect(page.locator("#done")).to_be_visible()
    settled(page)
    assert position(page) == str(row)


def test_a_fault_is_named_at_the_check(server: Server, opened: Opened, size: dict[str, int]) -> None:
    row, ring = first_check(server)
    page = at(opened(size), server, begun(server, row))
    page.get_by_label("It shows").fill(as_text(Fraction(ring) + 5))
    page.get_by_role("button", name="Keep").click()
    expect(page.locator("#panel .large", has_text="Do not cut.")).to_be_visible()
    expect(page.get_by_text("The crank is out by 1 whole turn too many.")).to_be_visible()
    expect(page.get_by_role("link", name="Where am I?").first).to_be_visible()
    press(page, f"Mended: it shows {ring}")
    expect(page.locator("#done")).to_be_visible()


def test_nothing_moves_under_the_finger(server: Server, opened: Opened, size: dict[str, int]) -> None:
    run = begun(server, 10)
    page = at(opened(size), server, run)
    before = page.locator("#done").bounding_box()
    back = page.locator(".back-button").bounding_box()
    page.locator(".more-menu > summary").click()
    expect(page.get_by_role("button", name="Skip, come back")).to_be_visible()
    assert page.locator("#done").bounding_box() == before
    page.get_by_role("button", name="Overshot").click()
    expect(page.get_by_text("turn back half a turn or more")).to_be_visible()
    assert page.locator("#done").bounding_box() == before
    done(page)
    assert page.locator("#done").bounding_box() == before
    assert page.locator(".back-button").bounding_box() == back


def test_story_a_the_phone_rang_at_88(server: Server, opened: Opened, size: dict[str, int]) -> None:
    page = at(opened(size), server, begun(server, 88))
    page.locator(".more-menu > summary").click()
    page.get_by_role("link", name="Where am I?").click()
    read(page, dial="0.7", ring="215")
    expect(page.get_by_role("heading", name="You are at position 89.")).to_be_visible()
    page.get_by_role("button", name="Tick 1 as done").click()
    expect(page.locator("#position")).to_have_text("89")


def test_story_b_the_crank_was_forced_with_the_lock_on(server: Server, opened: Opened) -> None:
    agreed, found = (row["row"] for row in checks(server)[3:5])
    run = begun(server, agreed)
    send_checked(server, run, agreed, found)
    row = whole_row(server, run, found)
    shows = as_text(Fraction(row["check_ring"]) + Fraction(31, 100))
    page = at(opened(), server, run)
    page.get_by_label("It shows").fill(shows)
    page.get_by_role("button", name="Keep").click()
    page.get_by_text("What else it may be").click()
    expect(page.get_by_text("Something has slipped, by 0.31 degrees")).to_be_visible()
    page.get_by_role("link", name="Where am I?").first.click()
    read(page, dial=row["reading"], ring=shows)
    expect(
        page.get_by_text(f"The setting agrees with position {found} and the ring does not")
    ).to_be_visible()
    expect(
        page.get_by_text(f"look at positions {agreed} to {found - 1}, {found - agreed} of them.")
    ).to_be_visible()
    page.get_by_label("How far, in degrees").fill("0.31")
    page.get_by_role("button", name="Take it in as an offset from").click()
    expect(page.locator("#position")).to_have_text(str(found))
    assert told(server, run)["state"]["suspect"] == list(range(agreed, found))
    page.locator(".more-menu > summary").click()
    expect(page.get_by_text(f"to be looked at: {agreed}, {agreed + 1}")).to_be_visible()


def test_story_f_the_power_went_and_the_run_goes_on(server: Server, opened: Opened) -> None:
    run = begun(server, 90)
    page = at(opened(), server, run)
    more(page, "Pause")
    expect(page.get_by_role("heading", name="Paused")).to_be_visible()
    row = whole_row(server, run, 89)
    expect(page.get_by_text(f"dial {row['reading']}, ring {row['ring'].rstrip('°')}")).to_be_visible()
    press(page, "It agrees: go on")
    expect(page.locator("#position")).to_have_text("90")


def test_story_g_the_second_pass_one_position_out(server: Server, opened: Opened) -> None:
    page = opened(DESK)
    page.goto(f"{server.address}/jobs/1")
    page.get_by_text("Begin a run of several passes").click()
    page.get_by_label("Cuts").select_option("two")
    page.get_by_label("Roughing depth").fill("0.1mm")
    page.get_by_label("Full depth").fill("0.15mm")
    page.get_by_role("button", name="Begin this run").click()
    page.wait_for_url("**/runs/*")
    run = page.url.removeprefix(server.address)
    send(server, run, {"kind": "began", "tap": "b", "at": 1.75e9, "numbers_grow": True})
    send(server, run, *({"kind": "done", "tap": f"r{n}", "at": 1.75e9 + n, "row": n} for n in range(153)))
    at(page, server, run)
    expect(page.get_by_text("Finishing, pass 2 of 2, 0.15 mm deep")).to_be_visible()
    one_out = whole_row(server, run, 154)
    at(page, server, run, "/where")
    read(page, dial=one_out["reading"], ring=one_out["ring"].rstrip("°"))
    expect(page.get_by_role("heading", name="You are at position 4.")).to_be_visible()


def test_skip_bad_note_and_undo(server: Server, opened: Opened, size: dict[str, int]) -> None:
    run = begun(server, 10)
    page = at(opened(size), server, run)
    more(page, "Skip, come back")
    expect(page.locator("#position")).to_have_text("11")
    settled(page)
    more(page, "Bad, note", bad_note=ODD)
    expect(page.locator(".more-menu[open]")).to_have_count(0)
    state = told(server, run)["state"]
    assert (state["skipped"], state["bad"]) == ([10], {"11": ODD})
    settled(page)
    page.locator(".more-menu > summary").click()
    page.get_by_role("link", name="Journal and undo").click()
    expect(page.get_by_text(ODD).first).to_be_visible()
    page.get_by_role("button", name="Undo").click()
    page.wait_for_url("**/journal")
    assert told(server, run)["state"]["bad"] == {}


def test_all_of_it_without_script(server: Server, opened: Opened) -> None:
    row, ring = first_check(server)
    run = begun(server, row - 1)
    page = opened(script=False)
    page.goto(server.address + run)
    page.locator(".more-menu > summary").click()
    page.get_by_role("button", name="Overshot").click()
    expect(page.get_by_text("turn back half a turn or more")).to_be_visible()
    page.locator("#done").click()
    page.get_by_role("button", name=f"Yes, {ring}").click()
    page.locator("#done").click()
    expect(page.locator("#position")).to_have_text(str(row + 1))
    page.locator(".more-menu > summary").click()
    page.get_by_role("button", name="Pause").click()
    page.get_by_role("button", name="It agrees: go on").click()
    expect(page.locator("#position")).to_have_text(str(row + 1))
