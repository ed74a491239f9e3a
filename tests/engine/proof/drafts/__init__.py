"""Rehearsals drafted for what no rehearsal visits."""
