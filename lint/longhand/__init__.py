"""Longhand: a draft written out for one size, as a maker would want it."""

from __future__ import annotations

from .marks import MEANINGS, SIGNS, marked
from .writing import Longhand, Mark, Written, longhand, size_asked

__all__ = ["MEANINGS", "SIGNS", "Longhand", "Mark", "Written", "longhand", "marked", "size_asked"]
