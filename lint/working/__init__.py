"""Working: from a pattern to its counts; arithmetic of stitches, no words."""

from .work import covered, find_round, targets_of, work

__all__ = ["covered", "find_round", "targets_of", "work"]
