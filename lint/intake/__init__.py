"""Intake: from a file or bytes to a draft."""

from __future__ import annotations

from .plain import IntakeError, drafts_in, read_bytes, read_file, read_stream

__all__ = ["IntakeError", "drafts_in", "read_bytes", "read_file", "read_stream"]
