"""The pocket card in a browser with no network: a run worked from a file, and its journal brought home."""

from collections.abc import Iterator
from fractions import Fraction
from io import BytesIO
from itertools import pairwise
from pathlib import Path
from urllib.request import Request, urlopen

import pytest
import zxingcpp
from PIL import Image
from playwright.sync_api import Browser, Page, expect

from crankwise.draw.code import QUIET
from crankwise.files.journal_text import read_journal_text
from crankwise.tasks.workshop import open_workshop
from tests.browser.conftest import PHONE, Opened
from tests.browser.doing import A_MOVE_MS, begin_run, done, position, settled
from tests.browser.runs import begun as run_begun
from tests.browser.runs import whole_row
from tests.browser.serving import Server
from tests.browser.shed import EXAMPLES, posted
from tests.browser.test_away import FULL, NO_DATABASE, steps

pytestmark = pytest.mark.browser

TIDE_RING, FEET = 1, 6
SITE = "http://shed.test"
NO_STORAGE = "Object.defineProperty(window, 'localStorage', { value: undefined });"


def card_of(server: Server, run_id: str, folder: Path) -> str:
    """Save the card of a run as a phone would, and return the address of the file."""
    with urlopen(f"{server.address}/runs/{run_id}/pocket.html") as answer:
        path = folder / f"card-{run_id}.html"
        path.write_bytes(answer.read())
    return path.as_uri()


def begun(page: Page, server: Server, job: int) -> tuple[str, str]:
    address = begin_run(page, server, job)
    return address, address.rpartition("/")[2]


def journal_of(page: Page) -> str:
    home = page.locator("#home")
    if home.get_attribute("open") is None:
        home.locator("summary").click()
    expect(page.locator("#journal-text")).not_to_have_value("")
    return page.locator("#journal-text").input_value()


def away(opened: Opened, card: str) -> Page:
    page = opened(PHONE)
    page.context.set_offline(True)
    page.goto(card)
    return page


def kept(page: Page, count: int) -> None:
    """Wait until a card has kept so many taps, and takes touches again."""
    expect(page.locator("#kept")).to_have_text(f"{count} tap{'' if count == 1 else 's'} kept on this phone.")
    settled(page)


def a_move(page: Page) -> None:
    """Let as much time go by, once the position is shown, as the card itself measures before it asks "So soon?"."""
    expect(page.locator("#done")).to_be_visible()
    page.wait_for_timeout(A_MOVE_MS)


def test_a_card_is_worked_with_no_network_and_comes_home_by_file(
    server: Server, opened: Opened, tmp_path: Path
) -> None:
    desk = opened()
    address, run_id = begun(desk, server, TIDE_RING)
    done(desk)
    page = away(opened, card_of(server, run_id, tmp_path))
    for at in ("2", "3", "4"):
        done(page)
        assert position(page) == at
    expect(page.locator("#kept")).to_have_text("3 taps kept on this phone.")
    page.reload()
    assert position(page) == "4", "progress is kept on the phone"
    text = journal_of(page)
    with page.expect_download() as saved:
        page.locator("#journal-file").click()
    assert saved.value.path().read_text(encoding="utf-8") == text
    desk.goto(f"{address}/bring")
    desk.locator("#journal-file").set_input_files(saved.value.path())
    desk.get_by_role("button", name="Take it in").click()
    expect(desk.get_by_role("status")).to_contain_text("3 taps were taken in.")
    assert steps(address) == [("began", None), *(("done", row) for row in range(4))]
    desk.goto(f"{address}/bring?journal={text}")
    desk.get_by_role("button", name="Take them in").click()
    expect(desk.get_by_role("status")).to_contain_text("0 taps were taken in.")
    assert steps(address) == [("began", None), *(("done", row) for row in range(4))]


def test_a_card_begins_by_itself_and_its_code_is_read_by_another_phone(
    server: Server, opened: Opened, tmp_path: Path
) -> None:
    desk = opened()
    desk.goto(f"http://shed.test:{server.port}/jobs/{FEET}")
    desk.get_by_role("button", name="Begin a run", exact=True).click()
    desk.wait_for_url("**/runs/*")
    address = f"{server.address}/runs/{desk.url.rpartition('/')[2]}"
    card = tmp_path / "card.html"
    asked = Request(f"{address}/pocket.html", headers={"Host": f"shed.test:{server.port}"})
    with urlopen(asked) as answer:
        card.write_bytes(answer.read())
    page = away(opened, card.as_uri())
    page.locator(".answers button").last.click()
    if page.get_by_role("button", name="I am sure").count():
        page.get_by_role("button", name="I am sure").click()
    done(page)
    text = journal_of(page)
    shot = page.locator("#journal-code svg").screenshot()
    (found,) = zxingcpp.read_barcodes(Image.open(BytesIO(shot)))
    assert (
        found.text
        == f"http://shed.test:{server.port}/runs/{read_journal_text(text).run}/bring?journal={text}"
    )
    desk.goto(found.text)
    expect(desk.get_by_text("This card brings 2 taps for this run.")).to_be_visible()
    desk.get_by_role("button", name="Take them in").click()
    expect(desk.get_by_role("status")).to_contain_text("2 taps were taken in.")
    assert steps(address) == [("began", None), ("done", 0)]


def test_all_that_a_card_can_tap_comes_home_as_it_was(server: Server, opened: Opened, tmp_path: Path) -> None:
    desk = opened()
    address, run_id = begun(desk, server, FEET)
    page = away(opened, card_of(server, run_id, tmp_path))
    done(page)
    kept(page, 1)
    for count, kind in enumerate(("Skip, come back", "Overshot", "Pause"), 2):
        page.locator(".more-menu > summary").click()
        page.get_by_role("button", name=kind).click()
        kept(page, count)
    page.get_by_role("button", name="It agrees: go on").click()
    kept(page, 5)
    page.locator(".more-menu > summary").click()
    page.get_by_label("what is wrong here").fill("chipped ~ 3\N{PRIME} <b> 🦀")
    page.get_by_role("button", name="Bad, note").click()
    kept(page, 6)
    page.get_by_role("button", name="Back: reopen").click()
    kept(page, 7)
    brought = read_journal_text(journal_of(page)).entries
    assert [(entry.kind, entry.row) for entry in brought] == [
        ("done", 0),
        ("skipped", 1),
        ("overshot", 2),
        ("paused", None),
        ("resumed", None),
        ("bad", 2),
        ("back", 1),
    ]
    assert brought[5].note == "chipped ~ 3\N{PRIME} <b> 🦀"
    assert all(later.at >= earlier.at for earlier, later in pairwise(brought))
    desk.goto(f"{address}/bring?journal={journal_of(page)}")
    desk.get_by_role("button", name="Take them in").click()
    expect(desk.get_by_role("status")).to_contain_text("7 taps were taken in.")


def begin_with_ring_at(page: Page, typed: str) -> None:
    """Begin a card's run on a head whose ring cannot be set, as its page asks."""
    page.locator("summary", has_text="The ring cannot be set to 0").click()
    page.locator("#ring-zero").fill(typed)
    page.locator("#ring-zero").press("Enter")
    expect(page.get_by_text("Every ring check counts from")).to_be_visible()
    settled(page)
    page.locator(".answers button").last.click()
    expect(page.locator("#done")).to_be_visible()


def test_a_ring_that_cannot_be_set_and_a_reading_that_does_not_agree(
    server: Server, opened: Opened, tmp_path: Path
) -> None:
    desk = opened()
    desk.goto(f"{server.address}/jobs/{FEET}")
    desk.get_by_role("button", name="Begin a run", exact=True).click()
    desk.wait_for_url("**/runs/*")
    address, run_id = desk.url, desk.url.rpartition("/")[2]
    page = away(opened, card_of(server, run_id, tmp_path))
    page.locator("summary", has_text="The ring cannot be set to 0").click()
    page.locator("#ring-zero").fill("361")
    page.get_by_role("button", name="Use this").click()
    expect(page.locator("#line")).to_have_text("The ring shows from 0 to below 360, and not 361.")
    page.reload()
    begin_with_ring_at(page, "12,5")
    done(page)
    done(page)
    check = page.get_by_label("Check")
    expect(check).to_contain_text("Read the ring before you work: it should show 156.50.")
    expect(check).to_contain_text("Asked here because")
    assert page.locator("#done").count() == 0, "first the check"
    settled(page)
    page.locator("#ring-shows").fill("eighty")
    page.get_by_role("button", name="Keep").click()
    expect(page.locator("#line")).to_contain_text(
        "is a number, as 12, 12.5 or 45/2; what is typed is “eighty”."
    )
    page.locator("#ring-shows").fill("84")
    page.locator("#ring-shows").press("Enter")
    off = page.get_by_label("The ring does not agree")
    expect(off).to_contain_text("You read 84.00; the ring should show 156.50°. Do not cut.")
    expect(off).to_contain_text("The ring stands 72.50 degrees behind what it should show.")
    expect(off).to_contain_text("It shows that at position 1.")
    assert page.locator("#done").count() == 0, "no Done while the ring does not agree"
    page.reload()
    expect(off).to_contain_text("Do not cut.")
    settled(page)
    page.get_by_role("button", name="I misread").click()
    expect(check).to_be_visible()
    settled(page)
    page.get_by_role("button", name="Yes, 156.50°").click()
    done(page)
    assert position(page) == "3"
    brought = read_journal_text(journal_of(page)).entries
    assert [(entry.kind, entry.reading or entry.angle) for entry in brought] == [
        ("began", Fraction(5, 144)),
        ("done", None),
        ("done", None),
        ("ring", Fraction(84)),
        ("undone", None),
        ("ring", Fraction("156.5")),
        ("done", None),
    ]
    desk.goto(f"{address}/bring?journal={journal_of(page)}")
    desk.get_by_role("button", name="Take them in").click()
    expect(desk.get_by_role("status")).to_contain_text("7 taps were taken in.")
    desk.goto(address)
    for part in (".which", ".reading", ".between", ".facts dd >> nth=0"):
        assert desk.locator(part).all_inner_texts() == page.locator(part).all_inner_texts()


def test_a_card_shows_the_pictures_that_the_workshop_shows(
    server: Server, opened: Opened, tmp_path: Path
) -> None:
    desk = opened()
    address, run_id = begun(desk, server, TIDE_RING)
    page = away(opened, card_of(server, run_id, tmp_path))
    for _ in range(3):
        done(desk)
        done(page)
        ours, theirs = (where.locator(".picture svg").get_attribute("aria-label") for where in (desk, page))
        assert ours == theirs
        boxes = [where.locator(".picture").bounding_box() for where in (desk, page)]
        assert boxes[0] is not None
        assert boxes[0] == boxes[1], "in the same place, as large"
    assert page.evaluate("document.documentElement.scrollWidth") == PHONE["width"]
    assert address


def test_what_was_written_down_can_be_taken_back(server: Server, opened: Opened, tmp_path: Path) -> None:
    _, run_id = begun(opened(), server, FEET)
    page = away(opened, card_of(server, run_id, tmp_path))
    done(page)
    kept(page, 1)
    page.locator(".more-menu > summary").click()
    page.get_by_role("button", name="Note", exact=True).click()
    expect(page.locator("#line")).to_have_text("Nothing is written: write what is worth knowing later.")
    page.get_by_label("worth knowing later").fill("oil <b>")
    page.get_by_label("worth knowing later").press("Enter")
    kept(page, 2)
    page.locator(".more-menu > summary").click()
    expect(page.locator(".more-sheet bdi")).to_have_text("Position 1: note: oil <b>")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".more-sheet bdi")).to_have_count(0)
    kinds = [entry.kind for entry in read_journal_text(journal_of(page)).entries]
    assert kinds == ["done", "note", "undone"]


def ask_where(page: Page, *shows: str) -> None:
    """Type what the scales show, the dial first, and ask where the machine stands."""
    where = page.locator("#where")
    if where.get_attribute("open") is None:
        where.locator("> summary").click()
    for scale, shown in enumerate(shows):
        page.locator(f"#where-scale{scale}").fill(shown)
    where.get_by_role("button", name="Where am I?").click()


def read_at(page: Page, row: dict[str, str], ring_ahead: Fraction = Fraction(0)) -> None:
    """Ask with what the scales show at a row, the ring so many degrees ahead."""
    ask_where(page, row["reading"], str(round(float(Fraction(row["ring_exact"]) + ring_ahead), 2)))


def test_a_card_says_where_the_machine_stands_and_goes_there_in_one(
    server: Server, opened: Opened, tmp_path: Path
) -> None:
    run = run_begun(server, 20)
    address = server.address + run
    page = away(opened, card_of(server, run.rpartition("/")[2], tmp_path))
    read_at(page, whole_row(server, run, 23))
    answer = page.locator(".where-says")
    expect(answer.get_by_role("heading", name="You are at position 23.")).to_be_focused()
    expect(answer).to_contain_text(
        "If positions 20 to 22 are done, 3 of them, tick them: the run then stands at 23."
    )
    answer.get_by_role("button", name="Tick 3 as done").click()
    expect(page.locator("#position")).to_have_text("23")
    expect(page.locator("#kept")).to_have_text("3 taps kept on this phone.")
    read_at(page, whole_row(server, run, 20))
    expect(answer).to_contain_text("The run is further on than the machine.")
    answer.get_by_role("button", name="Reopen 3").click()
    expect(page.locator("#position")).to_have_text("20")
    page.reload()
    assert position(page) == "20"
    text = journal_of(page)
    page.context.set_offline(False)
    page.goto(f"{address}/bring?journal={text}")
    page.get_by_role("button", name="Take them in").click()
    expect(page.get_by_role("status")).to_contain_text("6 taps were taken in.")
    assert steps(address)[21:] == [
        *(("done", row) for row in (20, 21, 22)),
        *(("back", row) for row in (22, 21, 20)),
    ]


def test_a_card_names_what_is_wrong_when_no_position_agrees(
    server: Server, opened: Opened, tmp_path: Path
) -> None:
    run = run_begun(server, 60)
    page = away(opened, card_of(server, run.rpartition("/")[2], tmp_path))
    row = whole_row(server, run, 60)
    answer = page.locator(".where-says")
    read_at(page, row, ring_ahead=Fraction(5))
    expect(answer).to_contain_text("1 whole turn of the crank past position 60")
    read_at(page, row, ring_ahead=Fraction("1.8"))
    expect(answer).to_contain_text(
        "The setting agrees with position 60 and the ring does not: the work stands 1.8"
    )
    expect(answer).to_contain_text("look at positions 0 to 59, 60 of them.")
    expect(answer).to_contain_text("loosen what has slipped, turn the work until the tool meets it")
    expect(answer).to_contain_text("the workshop takes a slip in as an offset")
    answer.get_by_role("button", name="Write this down").click()
    expect(answer).to_contain_text("Written down.")
    expect(answer).to_contain_text("The setting agrees with position 60")
    note = read_journal_text(journal_of(page)).entries[-1]
    assert (note.kind, note.row) == ("note", 60)
    assert note.note is not None
    assert note.note.startswith(f"Where am I? Read: dial {row['reading']}, ring ")
    done(page)
    expect(answer).to_be_empty()


def test_a_card_reads_the_count_of_a_drive_however_long(
    server: Server, opened: Opened, tmp_path: Path
) -> None:
    """Steps of 3200 a turn of the worm, 60 turns: position 40 of 60 is 128,000 steps from the start."""
    drive = (EXAMPLES / "driven-table.toml").read_text(encoding="utf-8")
    head = posted(server, "/heads/import", {"toml": drive})
    run = run_begun(server, 39, posted(server, "/jobs/new", {"head": str(head), "count": "60"}))
    page = away(opened, card_of(server, run.rpartition("/")[2], tmp_path))
    answer = page.locator(".where-says")
    ask_where(page, "many")
    expect(answer).to_contain_text("The drive’s count is a number, as 12, 12.5 or 45/2; what is typed is")
    ask_where(page, "128000")
    expect(answer.get_by_role("heading", name="You are at position 40.")).to_be_visible()


def test_what_is_typed_amiss_is_told_for_every_scale(server: Server, opened: Opened, tmp_path: Path) -> None:
    _, run_id = begun(opened(), server, TIDE_RING)
    page = away(opened, card_of(server, run_id, tmp_path))
    answer = page.locator(".where-says")
    ask_where(page, "", "")
    expect(answer).to_contain_text("Nothing is typed")
    ask_where(page, "fifty", "361")
    expect(answer).to_contain_text(
        "The dial’s reading is a number, as 12, 12.5 or 45/2; what is typed is “fifty”."
    )
    expect(answer).to_contain_text("The ring shows from 0 to below 360, and not 361.")
    page.get_by_text("Read less nearly").last.click()
    page.locator("#where-near1").fill("wide")
    ask_where(page, "12", "12")
    expect(answer).to_contain_text("What the ring is read to is a number")


def test_a_reading_that_does_not_agree_leads_on_to_the_question(
    server: Server, opened: Opened, tmp_path: Path
) -> None:
    desk = opened()
    desk.goto(f"{server.address}/jobs/{FEET}")
    desk.get_by_role("button", name="Begin a run", exact=True).click()
    desk.wait_for_url("**/runs/*")
    page = away(opened, card_of(server, desk.url.rpartition("/")[2], tmp_path))
    begin_with_ring_at(page, "12,5")
    done(page)
    done(page)
    expect(page.locator("#ring-shows")).to_be_visible()
    settled(page)
    page.locator("#ring-shows").fill("84")
    page.locator("#ring-shows").press("Enter")
    page.get_by_label("The ring does not agree").get_by_role("button", name="Where am I?").click()
    ring = page.get_by_label("The ring shows")
    expect(ring).to_have_value("84")
    ring.press("Enter")
    answer = page.locator(".where-says")
    expect(answer.get_by_role("heading", name="You are at position 1.")).to_be_visible()
    expect(answer).to_contain_text("It is the one done last, so nothing is lost")


def test_ten_thousand_taps_on_a_card_in_a_second_are_one(
    server: Server, opened: Opened, tmp_path: Path
) -> None:
    _, run_id = begun(opened(), server, TIDE_RING)
    page = away(opened, card_of(server, run_id, tmp_path))
    a_move(page)
    page.evaluate("for (let n = 0; n < 10000; n += 1) document.getElementById('done')?.click()")
    expect(page.locator("#position")).to_have_text("1")
    assert [entry.row for entry in read_journal_text(journal_of(page)).entries] == [0]


def test_a_card_asks_nothing_of_any_network(server: Server, opened: Opened, tmp_path: Path) -> None:
    _, run_id = begun(opened(), server, TIDE_RING)
    card = card_of(server, run_id, tmp_path)
    page = opened(PHONE)
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(card)
    done(page)
    journal_of(page)
    assert [url for url in asked if not url.startswith("data:")] == [card]


def test_a_phone_with_no_room_left_says_so_on_a_card_too(
    server: Server, opened: Opened, tmp_path: Path
) -> None:
    _, run_id = begun(opened(), server, TIDE_RING)
    card = card_of(server, run_id, tmp_path)
    page = opened(PHONE)
    page.add_init_script(FULL)
    page.goto(card)
    a_move(page)
    page.locator("#done").click()
    expect(page.locator("#line")).to_contain_text("This tap is not kept: the phone has no room left for it.")
    assert position(page) == "0"


def test_a_browser_with_no_database_keeps_taps_too_and_one_that_keeps_nothing_says_so(
    server: Server, opened: Opened, tmp_path: Path
) -> None:
    _, run_id = begun(opened(), server, TIDE_RING)
    card = card_of(server, run_id, tmp_path)
    page = opened(PHONE)
    page.add_init_script(NO_DATABASE)
    page.goto(card)
    done(page)
    page.reload()
    assert position(page) == "1"
    expect(page.locator("#kept")).to_have_text("1 tap kept on this phone.")
    page = opened(PHONE)
    page.add_init_script(NO_DATABASE + NO_STORAGE)
    page.goto(card)
    done(page)
    assert position(page) == "1"
    expect(page.locator("#kept")).to_contain_text("This browser keeps nothing: leave this page open")


def test_a_card_open_twice_doubles_nothing(server: Server, opened: Opened, tmp_path: Path) -> None:
    _, run_id = begun(opened(), server, TIDE_RING)
    page = away(opened, card_of(server, run_id, tmp_path))
    done(page)
    other = page.context.new_page()
    other.goto(page.url)
    done(page)
    assert position(other) == "1"
    a_move(other)
    other.locator("#done").click()
    expect(other.locator("#line")).to_contain_text("was worked in another window meanwhile")
    assert position(other) == "2"
    done(other)
    brought = read_journal_text(journal_of(other)).entries
    assert [entry.row for entry in brought] == [0, 1, 2]
    page.reload()
    again = read_journal_text(journal_of(page)).entries
    assert [entry.tap for entry in again] == [entry.tap for entry in brought], "one card, whichever window"


@pytest.mark.parametrize("script", ["", NO_STORAGE], ids=["one name", "a name each"])
def test_a_card_opened_twice_before_its_first_tap_doubles_nothing(
    server: Server, opened: Opened, tmp_path: Path, script: str
) -> None:
    address, run_id = begun(opened(), server, TIDE_RING)
    card = card_of(server, run_id, tmp_path)
    page = opened(PHONE)
    page.context.add_init_script(script)
    page.goto(card)
    other = page.context.new_page()
    other.goto(card)
    done(page)
    a_move(other)
    other.locator("#done").click()
    expect(other.locator("#position")).to_have_text("1")
    if not script:
        expect(other.locator("#line")).to_contain_text("was worked in another window meanwhile")
    done(page)
    page.reload()
    other.reload()
    assert position(page) == position(other) == "2"
    text = journal_of(page)
    assert [entry.row for entry in read_journal_text(text).entries] == [0, 1]
    page.goto(f"{address}/bring?journal={text}")
    page.get_by_role("button", name="Take them in").click()
    assert steps(address) == [("began", None), ("done", 0), ("done", 1)]


def test_a_card_of_a_thousand_positions_is_small_and_quick(
    browser: Browser, opened: Opened, tmp_path: Path, thousand: Path
) -> None:
    assert thousand.stat().st_size < 300_000
    page = away(opened, thousand.as_uri())
    page.locator(".answers button").last.click()
    if page.get_by_role("button", name="I am sure").count():
        page.get_by_role("button", name="I am sure").click()
    expect(page.locator("#position")).to_have_text("0")
    assert page.locator(".run-title").inner_text().startswith("Thousand </script><b>")
    assert page.locator("b script").count() == 0
    done(page)
    assert page.locator("#reading").inner_text() != ""


@pytest.fixture
def thousand(tmp_path: Path) -> Iterator[Path]:
    """A card of a thousand lines, under a name that strains it."""
    from dataclasses import fields

    from crankwise.store.kept import Asked
    from crankwise.tasks.pocket import pocket_card

    with open_workshop(str(tmp_path / "w.sqlite"), demo=True) as workshop:
        head = next(kept for kept in workshop.heads() if kept.head.dial)
        typed = {field.name: "" for field in fields(Asked)} | {
            "count": "1000",
            "rim": "200mm",
            "work": "line",
        }
        name = "Thousand </script><b><script>alert(1)</script> \N{HEBREW LETTER ALEF} 🦀"
        job = workshop.new_job(head.id, Asked(**typed), name)
        path = tmp_path / "card.html"
        path.write_bytes(pocket_card(workshop, workshop.begin_run(job.id).id, "http://shed.test:8127"))
        yield path


def test_codes_of_every_size_are_read_by_somebody_else(demo_server: Server, opened: Opened) -> None:
    page = opened()
    page.goto(f"{demo_server.address}/about")
    texts = ["aZ09-_~.1" * count for count in range(1, 193)]
    codes = page.evaluate(
        """async (texts) => {
          const { codeModules } = await import("/static/run_code.js");
          return texts.map(codeModules);
        }""",
        texts,
    )
    sizes = set()
    for text, modules in zip(texts, codes, strict=True):
        sizes.add((len(modules) - 17) // 4)
        assert read_modules(modules) == text
    assert sizes == set(range(1, 31)), "every version was met"
    assert (
        page.evaluate("async () => (await import('/static/run_code.js')).codeModules('x'.repeat(1733))")
        is None
    )


def read_modules(modules: list[list[bool]]) -> str:
    scale, size = 3, len(modules) + 2 * QUIET
    image = Image.new("L", (size * scale, size * scale), 255)
    for y, row in enumerate(modules):
        for x, dark in enumerate(row):
            if dark:
                left, top = (x + QUIET) * scale, (y + QUIET) * scale
                image.paste(0, (left, top, left + scale, top + scale))
    (found,) = zxingcpp.read_barcodes(image)
    return str(found.text)
