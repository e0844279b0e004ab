"""Longhand: a draft written out for one size, as a maker would want it."""

from __future__ import annotations

from .writing import Longhand, Mark, Written, longhand, size_asked

__all__ = ["Longhand", "Mark", "Written", "longhand", "size_asked"]
