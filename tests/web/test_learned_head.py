"""Where the sizes of a head are from goes through its form, as long as a size stays what it was."""

from starlette.testclient import TestClient

from crankwise.files.head_toml import read_head
from crankwise.web.head_fields import filled_fields, form_holds
from tests.gear import BENCH_HEAD
from tests.web.asking import JSON, new_head

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
