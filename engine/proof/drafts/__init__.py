"""Rehearsals drafted for what no rehearsal visits: a few walks that go every way left over."""
