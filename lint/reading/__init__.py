"""Reading: from a draft to a pattern, in layers that each leave positions untouched."""

from .read import read

__all__ = ["read"]
