"""Working: from a pattern to its counts; arithmetic of stitches, no words."""

from .references import covered, find_round, targets_of
from .work import work

__all__ = ["covered", "find_round", "targets_of", "work"]
