"""Witnessmark's engine: documents in, proven walks and durable cases out."""

__version__ = "0.1.0"
