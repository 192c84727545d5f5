from pathlib import Path

import pytest

from crankwise.errors import StoreTrouble
from crankwise.tasks.joining import GOOD_FOR, SHOWN_FOR, Joining, NotLetIn

NOW = 1_750_000_000.0


def test_a_code_lets_one_phone_in_and_no_second(tmp_path: Path) -> None:
    joining = Joining(tmp_path)
    code = joining.code(NOW)
    cookie = joining.join(code, NOW + 5)

    assert joining.knows(cookie)
    with pytest.raises(NotLetIn, match="this code has let a phone in and is used up; scan the one"):
        joining.join(code, NOW + 6)
    assert joining.code(NOW + 7) != code, "the computer shows the next one"


def test_looking_at_a_code_uses_nothing_up_and_tells_what_is_wrong_with_it(tmp_path: Path) -> None:
    joining = Joining(tmp_path)
    code = joining.code(NOW)
    for _ in range(3):
        joining.look_at(code, NOW + 1)
    joining.join(code, NOW + 2)
    with pytest.raises(NotLetIn, match="has let a phone in and is used up"):
        joining.look_at(code, NOW + 3)
    with pytest.raises(NotLetIn, match="this code is used or too old, and lets nobody in"):
        Joining(tmp_path).look_at(code, NOW + 3)
    with pytest.raises(NotLetIn, match="this code is used or too old, and lets nobody in"):
        joining.look_at("never ours", NOW)
    with pytest.raises(NotLetIn, match="this code is too old, and lets nobody in any more"):
        joining.look_at(joining.code(NOW), NOW + GOOD_FOR)


def test_a_code_ends(tmp_path: Path) -> None:
    joining = Joining(tmp_path)
    code = joining.code(NOW)

    with pytest.raises(NotLetIn, match="scan the one that the workshop's computer shows now"):
        joining.join(code, NOW + GOOD_FOR)


def test_the_code_on_the_screen_is_always_good_for_a_while(tmp_path: Path) -> None:
    joining = Joining(tmp_path)
    first = joining.code(NOW)

    assert joining.code(NOW + SHOWN_FOR - 1) == first
    assert joining.code(NOW + SHOWN_FOR) != first
    joining.join(first, NOW + SHOWN_FOR + 1)


@pytest.mark.parametrize("cookie", ["", ".", "x", "phone.", "phone.deadbeef", "ünsinn.é"])
def test_what_was_never_signed_is_not_known(tmp_path: Path, cookie: str) -> None:
    assert not Joining(tmp_path).knows(cookie)


def test_a_restart_knows_phones_open_codes_and_the_address(tmp_path: Path) -> None:
    before = Joining(tmp_path)
    cookie = before.join(before.code(NOW), NOW)
    code = before.code(NOW)
    before.found_at("192.0.2.7", 8127)
    after = Joining(tmp_path)

    assert after.knows(cookie)
    assert after.site == "http://192.0.2.7:8127"
    assert after.knows(after.join(code, NOW + 1))


def test_an_address_with_colons_stands_in_brackets(tmp_path: Path) -> None:
    joining = Joining(tmp_path)
    joining.found_at("2001:db8::7", 8127)

    assert joining.site == "http://[2001:db8::7]:8127"


def test_the_key_is_its_owners_alone_and_no_code_stands_in_the_file(tmp_path: Path) -> None:
    code = Joining(tmp_path).code(NOW)
    kept = tmp_path / "phones.json"

    assert kept.stat().st_mode & 0o077 == 0
    assert code not in kept.read_text(encoding="utf-8")


def test_all_phones_can_be_shut_out(tmp_path: Path) -> None:
    joining = Joining(tmp_path)
    cookie = joining.join(joining.code(NOW), NOW)
    joining.shut_all_out()

    assert not joining.knows(cookie)
    assert not Joining(tmp_path).knows(cookie)


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"format": 2}', '{"format": 1, "colour": 3}'])
def test_a_damaged_file_is_told_and_left_as_it_is(tmp_path: Path, text: str) -> None:
    (tmp_path / "phones.json").write_text(text, encoding="utf-8")

    with pytest.raises(StoreTrouble, match=r"phones\.json: this is not a file of ours"):
        Joining(tmp_path)
    assert (tmp_path / "phones.json").read_text(encoding="utf-8") == text
