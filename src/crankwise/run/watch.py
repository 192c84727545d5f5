"""What watches over a run: what its scales show at every row, and where it asks for a reading."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property, lru_cache

from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.run.check_points import Checks, checks
from crankwise.run.evidence import Evidence
from crankwise.run.in_hand import as_set
from crankwise.run.state import NO_SLIP, Anchor

SLIPS_AT_HAND = 2
"""As the machine stands now, and as it stood before."""


@dataclass(frozen=True)
class Watch:
    """The watch over one run. All of it is worked out when first asked for, and kept: it takes a while."""

    plan: Plan
    rows: tuple[Row, ...]

    @cached_property
    def checks(self) -> Checks:
        """The checks of the run; a slip that was made good changes none of them."""
        return checks(self.evidence())

    def evidence(self, anchor: Anchor = NO_SLIP) -> Evidence:
        """Return what every row shows when so much has slipped."""
        return self._evidence_at(anchor)

    def rows_at(self, anchor: Anchor) -> tuple[Row, ...]:
        """Return every row as it is set when so much has slipped."""
        return self._rows_at(anchor)

    @cached_property
    def _rows_at(self) -> Callable[[Anchor], tuple[Row, ...]]:
        return lru_cache(SLIPS_AT_HAND)(lambda anchor: as_set(self.plan, self.rows, anchor))

    @cached_property
    def _evidence_at(self) -> Callable[[Anchor], Evidence]:
        @lru_cache(SLIPS_AT_HAND)
        def at(anchor: Anchor) -> Evidence:
            return Evidence(self.plan, self.rows, anchor)

        return at
