"""Witnessmark's engine: documents in, proven walks and durable cases out."""

from typing import Final

__version__: Final = "0.1.0"
