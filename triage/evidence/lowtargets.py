"""Invalid data from a module that was itself only low: like a loss of one that answers and was low at the time, the
report is low voltage too. It repeats a fault of that module only as far as the module holds one."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from triage.evidence.hypotheses import ECHO, HARD, HISTORY, INTERMITTENT
from triage.model.casebook import INVALID, Casebook, Floats, Links

if TYPE_CHECKING:
    from triage.evidence.parameters import Parameters
    from triage.evidence.prior import Priors

#: Name of the step of the prior.
ONLY_LOW = "what the module it hears wrong holds of its own"


def lean_on_targets(book: Casebook, link: Links, causes: Floats, prior: Priors, params: Parameters) -> bool:
    """Add to ``prior`` the chance that the target of each report of invalid data holds a fault to be repeated, from the
    ``causes`` (N x 5) of its own codes; False where nothing reports any."""
    told = (link.relation == INVALID) & (link.target >= 0)
    if not told.any():
        return False
    held = causes[:, HARD] + causes[:, INTERMITTENT] + params.rate("echo.old_target") * causes[:, HISTORY]
    own = link.relation == 0
    none = np.zeros(len(book.module_name))
    np.add.at(none, book.fault_module[own], np.log1p(-np.minimum(held[own], 1.0 - 1e-9)))
    holds = 1.0 - np.exp(none)
    # One that holds no code at all is weighed by its sightings.
    bare = np.bincount(book.fault_module[own], minlength=len(book.module_name)) == 0
    holds[bare] = 1.0
    least = params.rate("echo.low_target")
    prior.then(told, ONLY_LOW, ECHO, least + (1.0 - least) * holds[link.target[told]])
    return True


__all__ = ["ONLY_LOW", "lean_on_targets"]
